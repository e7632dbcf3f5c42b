import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { CountSheet } from "../../views/stock/count-sheet.tsx";
import { differenceWords } from "../../views/stock/words.ts";
import { type Counted, countLots } from "../db/stock-counting.ts";
import { listStock } from "../db/stock-shelf.ts";
import { answer, created } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { countsBody } from "../wire/stock-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { lotOnStockJson } from "./stock-json.ts";

export const stockCounts = new Hono<Env>();

stockCounts.get(
  "/stock/count",
  described({ says: "Every lot that is not used up, to print and fill in, and to enter at once" }),
  memberRequired,
  async (c) => {
    const sheet = await sheetOf(c, {}, []);
    const json = () => ({
      items: sheet.rows.map(({ material, lot }) => ({ material, ...lotOnStockJson(lot) })),
      next: null,
    });
    return answer(c, { json, ...sheet });
  },
);

stockCounts.post(
  "/stock/counts",
  described({
    says: "Say what was found in several lots, all of it or none; a row without grams is skipped",
    body: countsBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, countsBody);
    const again = async (faults: readonly Fault[]) =>
      faulty(c, { faults }, await sheetOf(c, read.typed, faults));
    if (read.kind === "refused") return faulty(c, read, await sheetOf(c, read.typed, read.faults));
    const { counts, why } = read.value;
    const filled = counts.flatMap(({ lot, grams }) => (grams ? [{ lotId: lot, grams, why }] : []));
    if (filled.length === 0)
      return again([{ path: "", says: "Nothing was filled in: enter what you found of one lot." }]);
    const twice = counts.findIndex(({ lot, grams }, place) =>
      counts.some((other, before) => before < place && other.lot === lot && other.grams && grams),
    );
    if (twice >= 0)
      return again([{ path: `counts.${twice}.lot`, says: "This lot is in here twice." }]);

    const done = await countLots(c.var.db, { counts: filled, ...actOf(c) });
    switch (done.kind) {
      case "no-such-lot": {
        const place = counts.findIndex(({ lot, grams }) => lot === done.lotId && grams);
        return again([{ path: `counts.${place}.lot`, says: "There is no such lot." }]);
      }
      case "counted":
        return created(c, "/stock", { items: done.counted.map(countedJson) });
    }
  },
);

const countedJson = ({ lotId, grams, difference }: Counted) => ({
  lot: lotId,
  grams: grams.toFixed(),
  difference: difference.toFixed(),
  says: differenceWords(difference),
});

/** The sheet with what was typed still at the lots that it was typed for. */
async function sheetOf(c: Ctx, typed: Typed, faults: readonly Fault[]) {
  const { db, now, studio } = c.var;
  const items = await listStock(db, { now, weeks: studio.stockWeeks });
  const rows = items.flatMap(({ material, lots }) => lots.map((lot) => ({ material, lot })));
  const sent = Array.isArray(typed.counts) ? typed.counts : [];
  const placeOf = (place: number) =>
    sent.findIndex((row) => typedText(row, "lot") === rows[place]?.lot.id);
  return {
    rows,
    page: { title: "Count what is there", here: "shelf" as const },
    view: () =>
      CountSheet({
        rows,
        typed: (place) => typedText(sent[placeOf(place)], "grams"),
        why: typedText(typed, "why"),
        faults: faults.map((fault) => atRow(fault, sent, rows)),
        at: now,
        idempotencyKey: uuidv7(),
      }),
  };
}

/** A fault of a row that was sent, at the row of the same lot, which may have moved since. */
function atRow(fault: Fault, sent: unknown[], rows: readonly { lot: { id: string } }[]): Fault {
  const [, from, field] = /^counts\.(\d+)\.(.+)$/.exec(fault.path) ?? [];
  const lot = from === undefined ? undefined : typedText(sent[Number(from)], "lot");
  const place = rows.findIndex((row) => row.lot.id === lot);
  return place < 0 ? fault : { ...fault, path: `counts.${place}.${field}` };
}
