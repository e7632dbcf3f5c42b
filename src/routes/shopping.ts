import { Hono } from "hono";
import { accepts } from "hono/accepts";
import { ShoppingPage } from "../../views/shopping/page.tsx";
import { listRegions } from "../db/names-in-region.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { type ShoppingAsked, shoppingQuery } from "../wire/shopping-query.ts";
import { shoppingCsv } from "./shopping-csv.ts";
import { saysOf, shoppingJson } from "./shopping-json.ts";
import { type ShoppingList, shoppingList } from "./shopping-list.ts";
import { readWishes, type WishesRead } from "./shopping-wishes.ts";
import { unsolved } from "./solved.ts";

export const shopping = new Hono<Env>();

shopping.get(
  "/shopping",
  described({
    says: "What to buy for what is planned, the cheapest way by the prices on record",
    query: shoppingQuery,
  }),
  memberRequired,
  async (c) => {
    const read = check(shoppingQuery, sentOf(c));
    if (read.kind === "refused") {
      const nothing = await readWishes(c, shoppingQuery.parse({}));
      return faulty(c, read, await shoppingPage(c, nothing, undefined, read.faults));
    }
    const wishes = await readWishes(c, read.value);
    if (wishes.faults.length > 0)
      return faulty(c, wishes, await shoppingPage(c, wishes, undefined, wishes.faults));
    const listed = await shoppingList(c, read.value, wishes);
    if (listed.kind === "unsolved") return unsolved(c, listed.solved);
    const { list } = listed;
    if (wantsCsv(c, read.value)) return sendCsv(c, list);
    return answer(c, {
      json: () => shoppingJson(list),
      ...(await shoppingPage(c, wishes, list, [])),
    });
  },
);

/** A name that is said several times is a list; an empty field is one that was not filled in. */
const sentOf = (c: Ctx) =>
  Object.fromEntries(
    Object.entries(c.req.queries()).flatMap(([name, values]) => {
      const filled = values.filter((value) => value !== "");
      return filled.length === 0 ? [] : [[name, filled.length === 1 ? filled[0] : filled]];
    }),
  );

const wantsCsv = (c: Ctx, { format }: ShoppingAsked): boolean =>
  format === "csv" ||
  accepts(c, {
    header: "Accept",
    supports: ["text/html", "application/json", "text/csv"],
    default: "text/html",
  }) === "text/csv";

function sendCsv(c: Ctx, list: ShoppingList) {
  const day = c.var.now.toISOString().slice(0, 10);
  return c.body(shoppingCsv(list), 200, {
    "Content-Type": "text/csv; charset=utf-8",
    "Content-Disposition": `attachment; filename="shopping-${day}.csv"`,
  });
}

/** What is ticked of a name: a trial by its id alone, and any way of saying yes as a form says it. */
const tickedIn = (c: Ctx, name: string): string[] =>
  (c.req.queries(name) ?? [])
    .flatMap((value) => value.split(","))
    .map((value) => (["1", "true"].includes(value) ? "on" : value.replace(/:.*$/, "")));

async function shoppingPage(
  c: Ctx,
  { plans, trials }: WishesRead,
  list: ShoppingList | undefined,
  faults: readonly Fault[],
) {
  const regions = await listRegions(c.var.db);
  const { search } = new URL(c.req.url);
  return {
    page: { title: "What to buy", here: "shelf" as const },
    view: () =>
      ShoppingPage({
        ...{ plans, trials, regions, faults },
        list: list && { ...list, says: saysOf(list) },
        typed: (name) => c.req.query(name) ?? "",
        ticked: (name, value) => tickedIn(c, name).includes(value),
        csvHref: `/shopping?${new URLSearchParams([...new URLSearchParams(search), ["format", "csv"]])}`,
      }),
  };
}
