import type { Decimal } from "decimal.js";
import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { listMixTicks, type MixTick } from "./mix-ticks.ts";
import { holdStill, type MixEnd } from "./mixes.ts";
import { openRecallsOfLots } from "./open-recalls.ts";
import { lots, mixEnds, mixLines, mixTicks, mixTickUndoings, stockMoves } from "./schema/index.ts";

type OfLine = { mixId: string; n: number };

export type Ticked =
  /** Now, or before by the same key: it counts once. */
  | { kind: "ticked" }
  | { kind: "no-line" }
  | { kind: "ended"; is: MixEnd["is"] }
  /** The key came before with something else in it. */
  | { kind: "other-content" }
  /** Somebody put this line in already, and it was not said that this comes on top. */
  | { kind: "in-already"; ticks: MixTick[] }
  | { kind: "not-its-lot" }
  | { kind: "recalled"; why: string };

type Tick = OfLine & {
  grams: Decimal;
  lotId: string | null;
  key: string;
  /** Whether it comes on top of what is in already, out of a second bag. */
  adds: boolean;
};

/**
 * Puts on record what went in of a line, and takes it from its lot in the same breath. A key counts
 * once, however often it is sent.
 */
export async function tickLine(
  db: Db,
  { by, at, adds, ...tick }: Act & Tick & { by: string },
): Promise<Ticked> {
  const { mixId, n, grams, lotId, key } = tick;
  return db.transaction(async (tx) => {
    await holdStill(tx, mixId);
    const line = await findLine(tx, { mixId, n });
    if (!line) return { kind: "no-line" };
    const ticks = await listMixTicks(tx, [mixId]);
    const before = ticks.find((other) => other.key === key);
    if (before) return { kind: isSame(before, tick) ? "ticked" : "other-content" };
    if (line.end) return { kind: "ended", is: line.end };
    const live = ticks.filter((other) => other.n === n && !other.undone);
    if (live.length > 0 && !adds) return { kind: "in-already", ticks: live };
    if (lotId !== null) {
      await holdStill(tx, lotId);
      if (!(await isLotOf(tx, lotId, line.materialId))) return { kind: "not-its-lot" };
      const [recall] = (await openRecallsOfLots(tx, [lotId])).get(lotId) ?? [];
      if (recall) return { kind: "recalled", why: recall.why };
    }
    const id = uuidv7();
    await tx.insert(mixTicks).values({ id, ...tick, by, at });
    if (lotId !== null) await move(tx, { id, lotId, grams: grams.neg(), because: "mix", by, at });
    const detail = { line: n, tick: id, grams: grams.toFixed(), lot: lotId };
    await appendEvent(
      tx,
      { by, at },
      { kind: "line ticked", subject: "mix", subjectId: mixId, detail },
    );
    return { kind: "ticked" };
  });
}

export type Undone =
  | { kind: "undone" }
  | { kind: "no-line" }
  | { kind: "ended"; is: MixEnd["is"] }
  | { kind: "no-such-tick" }
  | { kind: "nothing-in" };

/**
 * Takes a tick of a line back, and gives its lot what it took: the one of that key, or without a key
 * the newest that stands. Taken back already is taken back. A finished mix stays as it is.
 */
export async function undoTick(
  db: Db,
  { mixId, n, key, by, at }: Act & OfLine & { by: string; key?: string | undefined },
): Promise<Undone> {
  return db.transaction(async (tx) => {
    await holdStill(tx, mixId);
    const line = await findLine(tx, { mixId, n });
    if (!line) return { kind: "no-line" };
    const ticks = (await listMixTicks(tx, [mixId])).filter((tick) => tick.n === n);
    const tick =
      key === undefined
        ? ticks.findLast(({ undone }) => !undone)
        : ticks.find((other) => other.key === key);
    if (!tick) return { kind: key === undefined ? "nothing-in" : "no-such-tick" };
    if (tick.undone) return { kind: "undone" };
    if (line.end === "finished") return { kind: "ended", is: line.end };
    const { id, lot, grams } = tick;
    if (lot) await holdStill(tx, lot.id);
    await tx.insert(mixTickUndoings).values({ tickId: id, by, at });
    if (lot) await move(tx, { id, lotId: lot.id, grams, because: "undone", by, at });
    const detail = { line: n, tick: id, grams: grams.toFixed(), lot: lot?.id ?? null };
    await appendEvent(
      tx,
      { by, at },
      { kind: "tick undone", subject: "mix", subjectId: mixId, detail },
    );
    return { kind: "undone" };
  });
}

async function findLine(tx: Db, { mixId, n }: OfLine) {
  const [line] = await tx
    .select({ materialId: mixLines.materialId, end: mixEnds.is })
    .from(mixLines)
    .leftJoin(mixEnds, eq(mixEnds.mixId, mixLines.mixId))
    .where(and(eq(mixLines.mixId, mixId), eq(mixLines.n, n)));
  return line;
}

const isSame = (before: MixTick, tick: Omit<Tick, "adds">): boolean =>
  before.n === tick.n && before.grams.eq(tick.grams) && (before.lot?.id ?? null) === tick.lotId;

async function isLotOf(tx: Db, lotId: string, materialId: string): Promise<boolean> {
  const [lot] = await tx
    .select({ id: lots.id })
    .from(lots)
    .where(and(eq(lots.id, lotId), eq(lots.materialId, materialId)));
  return lot !== undefined;
}

type StockMove = Act & {
  id: string;
  lotId: string;
  grams: Decimal;
  because: "mix" | "undone";
  by: string;
};

const move = (tx: Db, { id: tickId, ...moved }: StockMove) =>
  tx.insert(stockMoves).values({ id: uuidv7(), tickId, why: "", ...moved });
