import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { UseForm } from "../../views/stock/lot-forms.tsx";
import { LotPage } from "../../views/stock/lot-page.tsx";
import { mixesOf } from "../../views/stock/moves.tsx";
import { differenceWords, gramsWords } from "../../views/stock/words.ts";
import { lotAge } from "../chem/stock-line.ts";
import { findLot } from "../db/lots.ts";
import { countLots, useLot } from "../db/stock-counting.ts";
import { listMoves, type StockMove } from "../db/stock-moves.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { countBody, useBody } from "../wire/stock-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { lotJson } from "./material-json.ts";

export const lotSheets = new Hono<Env>();

type FoundLot = NonNullable<Awaited<ReturnType<typeof findLot>>>;

lotSheets.get(
  "/lots/:id",
  described({ says: "A lot: what it is, what is left of it, and where the rest went" }),
  memberRequired,
  async (c) => {
    const lot = await lotOf(c);
    if (!lot) return notFound(c);
    const moves = await movesOf(c, lot);
    return answer(c, { json: () => sheetJson(c, lot, moves), ...lotSheet(c, lot, moves, {}, []) });
  },
);

lotSheets.post(
  "/lots/:id/counts",
  described({
    says: "Say how much was found in a lot: it holds that from then on",
    body: countBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const lot = await lotOf(c);
    if (!lot) return notFound(c);
    const read = await readBody(c, countBody);
    if (read.kind === "refused")
      return faulty(c, read, lotSheet(c, lot, await movesOf(c, lot), read.typed, read.faults));
    const { grams, why } = read.value;
    const done = await countLots(c.var.db, {
      counts: [{ lotId: lot.id, grams, why }],
      ...actOf(c),
    });
    const [counted] = done.kind === "counted" ? done.counted : [];
    if (!counted) return notFound(c);
    const { difference } = counted;
    return created(c, `/lots/${lot.id}#left`, {
      lot: lot.id,
      grams: grams.toFixed(),
      difference: difference.toFixed(),
      says: differenceWords(difference),
    });
  },
);

lotSheets.get(
  "/lots/:id/uses/new",
  described({ says: "The form to take some of a lot out for something else than a mix" }),
  memberRequired,
  async (c) => {
    const lot = await lotOf(c);
    if (!lot) return notFound(c);
    const form = useForm(lot, {}, []);
    return page(c, form.page, form.view);
  },
);

lotSheets.post(
  "/lots/:id/uses",
  described({
    says: "Say how much of a lot was taken out for something else than a mix, and what for",
    body: useBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const lot = await lotOf(c);
    if (!lot) return notFound(c);
    const read = await readBody(c, useBody);
    if (read.kind === "refused") return faulty(c, read, useForm(lot, read.typed, read.faults));
    const { grams, why } = read.value;
    const used = await useLot(c.var.db, { lotId: lot.id, grams, why, ...actOf(c) });
    switch (used.kind) {
      case "recalled": {
        const says = `This lot is recalled: do not use it. Count it as 0 once it has left the room. ${used.why}`;
        const faults = [{ path: "grams", says }];
        return faulty(c, { faults }, useForm(lot, read.typed, faults));
      }
      case "used": {
        const now = (await lotOf(c)) ?? lot;
        return created(c, `/lots/${lot.id}#left`, sheetJson(c, now, await movesOf(c, now)));
      }
    }
  },
);

const lotOf = (c: Ctx) => findLot(c.var.db, c.req.param("id") ?? "");

const movesOf = (c: Ctx, { id, grams }: FoundLot) =>
  listMoves(c.var.db, { lotId: id, bought: grams, reader: c.var.viewer });

const ageOf = (c: Ctx, { bestBefore }: FoundLot) =>
  lotAge(bestBefore, c.var.now.toISOString().slice(0, 10));

const sheetJson = (c: Ctx, lot: FoundLot, moves: readonly StockMove[]) => ({
  material: lot.material,
  ...lotJson(lot),
  age: ageOf(c, lot),
  in: mixesOf(moves).map(({ id, bucket, grams }) => ({ mix: id, bucket, grams: grams.toFixed() })),
  moves: moves.map(({ grams, left, ...move }) => ({
    ...move,
    grams: grams.toFixed(),
    leftGrams: left.toFixed(),
  })),
});

const typedIn = (typed: Typed) => ({
  grams: typedText(typed, "grams"),
  why: typedText(typed, "why"),
});

/** The page of a lot, with what was typed still in its form. */
const lotSheet = (
  c: Ctx,
  lot: FoundLot,
  moves: readonly StockMove[],
  typed: Typed,
  faults: readonly Fault[],
) => ({
  page: { title: `A lot of ${lot.material.name}`, here: "shelf" as const },
  view: () =>
    LotPage({
      lot,
      age: ageOf(c, lot),
      moves,
      mayRecall: memberOf(c).role !== "member",
      typed: typedIn(typed),
      faults,
      idempotencyKey: uuidv7(),
    }),
});

const useForm = (lot: FoundLot, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `Take some ${lot.material.name} out`, here: "shelf" as const },
  view: () =>
    UseForm({
      lot,
      left: gramsWords(lot.leftGrams),
      typed: typedIn(typed),
      faults,
      idempotencyKey: uuidv7(),
    }),
});
