import type { Decimal } from "decimal.js";
import { moveWords } from "../chem/move-words.ts";
import { changeBucket } from "./buckets.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { mixStateOf } from "./mix-chemistry.ts";
import { holdStill, type MixEnd, type MixLine, readMix } from "./mixes.ts";
import { mixEnds } from "./schema/index.ts";
import { findStudio } from "./studios.ts";

export type Ended =
  /** Now, or before in the same words. */
  | { kind: "ended" }
  | { kind: "ended-otherwise"; end: MixEnd }
  /** What the batch sheet asks for and nobody put in. */
  | { kind: "not-all-in"; lines: MixLine[] };

/**
 * Ends a mix in which every line is: its bucket is on hold from then on, until somebody has fired a
 * proof tile of it.
 */
export async function finishMix(
  db: Db,
  { mixId, waterGrams, by, at }: Act & { by: string; mixId: string; waterGrams: Decimal },
): Promise<Ended> {
  return db.transaction(async (tx) => {
    await holdStill(tx, mixId);
    const mix = await readMix(tx, mixId);
    if (!mix) throw new Error("the mix was found through its reader's scope");
    const { end, bucket } = mix;
    if (end?.is === "finished" && end.waterGrams?.eq(waterGrams)) return { kind: "ended" };
    if (end) return { kind: "ended-otherwise", end };
    // Nobody opens it meanwhile by a proof tile of what was in it before.
    await holdStill(tx, bucket.id);
    const lines = mix.lines.filter(({ put, grams }) => put === null && grams.gt(0));
    if (lines.length > 0) return { kind: "not-all-in", lines };

    await tx.insert(mixEnds).values({ mixId, is: "finished", waterGrams, why: "", by, at });
    const { mixTolerancePercent } = await findStudio(tx);
    const { chemistry } = await mixStateOf(tx, mix, mixTolerancePercent);
    const why = holdWords(chemistry?.moves.map(moveWords) ?? []);
    await changeBucket(tx, { bucketId: bucket.id, is: "hold", why, by, at });
    const detail = { bucket: bucket.id, waterGrams: waterGrams.toFixed() };
    await appendEvent(
      tx,
      { by, at },
      { kind: "mix finished", subject: "mix", subjectId: mixId, detail },
    );
    return { kind: "ended" };
  });
}

const proofFirst = "Mixed: a proof tile comes first.";

/** A reason has room for 1000 characters. */
const holdWords = (moved: readonly string[]): string =>
  moved.length === 0
    ? proofFirst
    : `${proofFirst} What went in is further from the recipe than its approval bears: ${moved.join("; ")}.`.slice(
        0,
        1000,
      );

/** Ends a mix that comes to nothing. What went in of it stays taken from its lots, unless it is undone. */
export async function giveUpMix(
  db: Db,
  { mixId, why, by, at }: Act & { by: string; mixId: string; why: string },
): Promise<Ended> {
  return db.transaction(async (tx) => {
    await holdStill(tx, mixId);
    const mix = await readMix(tx, mixId);
    if (!mix) throw new Error("the mix was found through its reader's scope");
    const { end, bucket } = mix;
    if (end?.is === "given up" && end.why === why) return { kind: "ended" };
    if (end) return { kind: "ended-otherwise", end };
    await tx.insert(mixEnds).values({ mixId, is: "given up", why, by, at });
    const detail = { bucket: bucket.id };
    await appendEvent(
      tx,
      { by, at },
      { kind: "mix given up", subject: "mix", subjectId: mixId, detail },
    );
    return { kind: "ended" };
  });
}
