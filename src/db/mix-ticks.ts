import type { Decimal } from "decimal.js";
import { asc, eq, inArray } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { lots, mixTicks, mixTickUndoings, people, suppliers } from "./schema/index.ts";

/** The bag; `analysisId` is null where nobody analysed this lot. */
type MixTickLot = { id: string; mark: string; supplier: string; analysisId: string | null };

/** What really went in of a line at one time. */
export type MixTick = {
  id: string;
  mixId: string;
  n: number;
  key: string;
  grams: Decimal;
  /** null where nobody could tell which bag it came out of: nothing was deducted then. */
  lot: MixTickLot | null;
  by: { id: string; name: string };
  at: Date;
  undone: { by: string; at: Date } | null;
};

/** The ticks of some mixes, oldest first, with those that were undone. */
export async function listMixTicks(db: Db, mixIds: readonly string[]): Promise<MixTick[]> {
  const undoers = alias(people, "undoers");
  const rows = await db
    .select({
      tick: mixTicks,
      mark: lots.mark,
      analysisId: lots.analysisId,
      supplier: suppliers.name,
      by: people.name,
      undoneBy: undoers.name,
      undoneAt: mixTickUndoings.at,
    })
    .from(mixTicks)
    .innerJoin(people, eq(people.id, mixTicks.by))
    .leftJoin(lots, eq(lots.id, mixTicks.lotId))
    .leftJoin(suppliers, eq(suppliers.id, lots.supplierId))
    .leftJoin(mixTickUndoings, eq(mixTickUndoings.tickId, mixTicks.id))
    .leftJoin(undoers, eq(undoers.id, mixTickUndoings.by))
    .where(inArray(mixTicks.mixId, [...mixIds]))
    .orderBy(asc(mixTicks.id));
  return rows.map(({ tick, mark, supplier, analysisId, by, undoneBy, undoneAt }) => ({
    id: tick.id,
    mixId: tick.mixId,
    n: tick.n,
    key: tick.key,
    grams: tick.grams,
    lot:
      tick.lotId === null || mark === null || supplier === null
        ? null
        : { id: tick.lotId, mark, supplier, analysisId },
    by: { id: tick.by, name: by },
    at: tick.at,
    undone: undoneBy === null || undoneAt === null ? null : { by: undoneBy, at: undoneAt },
  }));
}
