import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { LineForm } from "../../views/stock/line-form.tsx";
import { StockPage } from "../../views/stock/list.tsx";
import { type StockFilter, stockFilters } from "../../views/stock/types.ts";
import { findMaterial } from "../db/materials.ts";
import { setStockLine } from "../db/stock-lines.ts";
import { listStock, type StockOfMaterial } from "../db/stock-shelf.ts";
import { answer, changed, page } from "../wire/answers.tsx";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { stockLineBody } from "../wire/stock-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { stockJson } from "./stock-json.ts";

export const stock = new Hono<Env>();

const asked = z.object({ only: z.enum(stockFilters).optional() });

stock.get(
  "/stock",
  described({
    says: "What there is of every material, how far it goes and what is low",
    query: asked,
  }),
  memberRequired,
  async (c) => {
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { only } = read.value;
    const all = await stockNow(c);
    const items = only === undefined ? all : all.filter(matches[only]);
    const count = (filter: StockFilter) => all.filter(matches[filter]).length;
    return answer(c, {
      json: () => ({ weeks: c.var.studio.stockWeeks, items: items.map(stockJson), next: null }),
      page: { title: "What is in stock", here: "shelf" },
      view: () =>
        StockPage({
          items,
          counts: { low: count("low"), expired: count("expired"), recalled: count("recalled") },
          only,
          weeks: c.var.studio.stockWeeks,
          mayManage: memberOf(c).role === "manager",
        }),
    });
  },
);

const matches: Record<StockFilter, (item: StockOfMaterial) => boolean> = {
  low: ({ isLow }) => isLow,
  expired: ({ lots }) => lots.some(({ age }) => age === "expired"),
  recalled: ({ lots }) => lots.some(({ recalls }) => recalls.length > 0),
};

stock.get(
  "/materials/:slug/stock-line",
  described({ says: "The form for how much of a material should always be there" }),
  managerRequired,
  async (c) => {
    const item = await stockOf(c);
    if (!item) return notFound(c);
    const own = item.lineIs === "own" ? item.line.toFixed() : "";
    const form = lineForm(c, item, own, []);
    return page(c, form.page, form.view);
  },
);

stock.on(
  ["PUT", "POST"],
  "/materials/:slug/stock-line",
  described({
    says: "Say how much of a material should always be there; null lets its use tell",
    body: stockLineBody,
  }),
  managerRequired,
  async (c) => {
    const item = await stockOf(c);
    const material = await findMaterial(c.var.db, c.req.param("slug"));
    if (!item || !material) return notFound(c);
    const read = await readBody(c, stockLineBody);
    if (read.kind === "refused")
      return faulty(c, read, lineForm(c, item, typedText(read.typed, "grams"), read.faults));
    await setStockLine(c.var.db, {
      materialId: material.id,
      grams: read.value.grams,
      ...actOf(c),
    });
    const now = await stockOf(c);
    return changed(c, `/stock#${item.material.slug}`, now && stockJson(now));
  },
);

/** What is low first and of that what goes out soonest; the rest by name. */
async function stockNow(c: Ctx): Promise<StockOfMaterial[]> {
  const { db, now, studio } = c.var;
  const items = await listStock(db, { now, weeks: studio.stockWeeks });
  const low = items
    .filter(({ isLow }) => isLow)
    .sort((one, other) => weeksOf(one) - weeksOf(other));
  return [...low, ...items.filter(({ isLow }) => !isLow)];
}

const weeksOf = ({ lastsWeeks }: StockOfMaterial): number =>
  lastsWeeks?.toNumber() ?? Number.MAX_VALUE;

const stockOf = async (c: Ctx): Promise<StockOfMaterial | undefined> =>
  (await stockNow(c)).find(({ material }) => material.slug === c.req.param("slug"));

const lineForm = (c: Ctx, item: StockOfMaterial, typed: string, faults: readonly Fault[]) => ({
  page: { title: `The least of ${item.material.name}`, here: "shelf" as const },
  view: () =>
    LineForm({ item, weeks: c.var.studio.stockWeeks, typed, faults, idempotencyKey: uuidv7() }),
});
