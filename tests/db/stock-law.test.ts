import { Decimal } from "decimal.js";
import { asc, eq } from "drizzle-orm";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { tickLine, undoTick } from "../../src/db/mix-ticking.ts";
import { lots, stockMoves } from "../../src/db/schema/index.ts";
import { leftOfLots } from "../../src/db/stock.ts";
import { countLots, useLot } from "../../src/db/stock-counting.ts";
import { buy, newKey, openMix } from "../mixes.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

let studio: TestStudio;
let mix: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  mix = (await openMix(studio)).id;
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

type Step = { do: "tick" | "undo" | "count" | "use"; grams: Decimal };

const grams = fc
  .integer({ min: 1, max: 9_999_999 })
  .map((tenThousandths) => new Decimal(tenThousandths).div(10_000));
const step: fc.Arbitrary<Step> = fc.record({
  do: fc.constantFrom("tick" as const, "undo" as const, "count" as const, "use" as const),
  grams,
});

const act = () => ({ by: studio.ids.author, at: new Date() });

async function take(lotId: string, { do: what, grams }: Step): Promise<void> {
  const { db } = studio;
  switch (what) {
    case "tick":
      await tickLine(db, { mixId: mix, n: 1, grams, lotId, key: newKey(), adds: true, ...act() });
      return;
    case "undo":
      await undoTick(db, { mixId: mix, n: 1, ...act() });
      return;
    case "count":
      await countLots(db, { counts: [{ lotId, grams, why: "" }], ...act() });
      return;
    case "use":
      await useLot(db, { lotId, grams, why: "A trial.", ...act() });
  }
}

const leftOf = async (lotId: string) =>
  (await leftOfLots(studio.db, [lotId])).get(lotId)?.toFixed();
const movesOf = (lotId: string) =>
  studio.db
    .select()
    .from(stockMoves)
    .where(eq(stockMoves.lotId, lotId))
    .orderBy(asc(stockMoves.id));
const sum = (moves: readonly { grams: Decimal }[], from: Decimal) =>
  moves.reduce((total, move) => total.plus(move.grams), from).toFixed();

describe("what is left of a lot", () => {
  it("is what was bought with every move, and the last count with those after it, exactly", () =>
    fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
        const lotId = await buy(studio, "potash-feldspar", { grams: "5000.125" });
        let counted: { grams: Decimal; moves: number } | undefined;
        for (const each of steps) {
          await take(lotId, each);
          if (each.do === "count")
            counted = { grams: each.grams, moves: (await movesOf(lotId)).length };
        }
        const left = await leftOf(lotId);
        const moves = await movesOf(lotId);
        const [lot] = await studio.db.select().from(lots).where(eq(lots.id, lotId));
        expect(left).toBe(sum(moves, lot?.grams ?? new Decimal(0)));
        if (counted) expect(left).toBe(sum(moves.slice(counted.moves), counted.grams));
      }),
      { numRuns: 12 },
    ));

  it("is the count that came last where several count and take at once", async () => {
    const lotId = await buy(studio, "potash-feldspar", { grams: "5000" });
    const found = [4000, 3000, 2500].map((grams) => new Decimal(grams));
    await Promise.all([
      ...found.map((grams) => take(lotId, { do: "count", grams })),
      take(lotId, { do: "tick", grams: new Decimal(120) }),
      take(lotId, { do: "use", grams: new Decimal(7) }),
    ]);
    const moves = await movesOf(lotId);
    expect(moves).toHaveLength(5);
    const last = moves.findLastIndex(({ because }) => because === "stocktake");
    // The rows up to the last count come to one of the counts: none was made of what another saw.
    const then = sum(moves.slice(0, last + 1), new Decimal(5000));
    expect(found.map((grams) => grams.toFixed())).toContain(then);
    expect(await leftOf(lotId)).toBe(sum(moves.slice(last + 1), new Decimal(then)));
  });

  it("is counted for all lots of a sheet or for none", async () => {
    const lotId = await buy(studio, "quartz", { grams: "900" });
    const gone = studio.ids.author;
    const counts = [lotId, gone].map((id) => ({ lotId: id, grams: new Decimal(1), why: "" }));
    const counted = await countLots(studio.db, { counts, ...act() });
    expect(counted).toEqual({ kind: "no-such-lot", lotId: gone });
    expect(await leftOf(lotId)).toBe("900");
  });
});
