import type { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent, appendEvents } from "./events.ts";
import { holdStill } from "./mixes.ts";
import { openRecallsOfLots } from "./open-recalls.ts";
import { stockMoves } from "./schema/index.ts";
import { leftOfLots } from "./stock.ts";

/** What somebody found in a lot by weighing it. */
export type LotCount = { lotId: string; grams: Decimal; why: string };

/** What was found against what should have been there: below 0 where some was missing. */
export type Counted = { lotId: string; grams: Decimal; difference: Decimal };

export type CountedLots =
  | { kind: "counted"; counted: Counted[] }
  /** Nothing was counted then. */
  | { kind: "no-such-lot"; lotId: string };

/**
 * Puts what was found in some lots on record, all of them or none. Each lot is held still meanwhile,
 * so that what it should hold does not change under the count; two who count at once come one after
 * the other. A count is undone by another count.
 */
export async function countLots(
  db: Db,
  { counts, by, at }: Act & { by: string; counts: readonly LotCount[] },
): Promise<CountedLots> {
  return db.transaction(async (tx) => {
    const inOrder = counts.toSorted((one, other) => (one.lotId < other.lotId ? -1 : 1));
    // Always in the same order, so that two sheets never wait for each other.
    for (const { lotId } of inOrder) await holdStill(tx, lotId);
    const left = await leftOfLots(
      tx,
      counts.map(({ lotId }) => lotId),
    );
    const missing = counts.find(({ lotId }) => !left.has(lotId));
    if (missing) return { kind: "no-such-lot", lotId: missing.lotId };
    const counted = counts.map(({ lotId, grams, why }) => {
      const difference = grams.minus(left.get(lotId) ?? 0);
      return { lotId, grams, difference, why };
    });
    if (counted.length === 0) return { kind: "counted", counted };
    await tx.insert(stockMoves).values(
      counted.map(({ lotId, difference, why }) => {
        const because = "stocktake" as const;
        return { id: uuidv7(), lotId, grams: difference, because, why, by, at };
      }),
    );
    await appendEvents(
      tx,
      counted.map(({ lotId, grams, difference }) => {
        const detail = { grams: grams.toFixed(), difference: difference.toFixed() };
        const happening = {
          kind: "lot counted",
          subject: "lot",
          subjectId: lotId,
          detail,
        } as const;
        return { act: { by, at }, happening };
      }),
    );
    return { kind: "counted", counted };
  });
}

export type LotUsed = { kind: "used" } | { kind: "recalled"; why: string };

/** Takes what was used beside the mixes, such as for trials, from a lot that is on record. */
export async function useLot(
  db: Db,
  { lotId, grams, why, by, at }: Act & LotCount & { by: string },
): Promise<LotUsed> {
  return db.transaction(async (tx) => {
    await holdStill(tx, lotId);
    const [recall] = (await openRecallsOfLots(tx, [lotId])).get(lotId) ?? [];
    if (recall) return { kind: "recalled", why: recall.why };
    const because = "other use" as const;
    const move = { id: uuidv7(), lotId, grams: grams.neg(), because, why, by, at };
    await tx.insert(stockMoves).values(move);
    const detail = { grams: grams.toFixed() };
    await appendEvent(
      tx,
      { by, at },
      { kind: "lot used", subject: "lot", subjectId: lotId, detail },
    );
    return { kind: "used" };
  });
}
