import type { Decimal } from "decimal.js";
import { asc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Fault } from "../chem/analysis.ts";
import { type BatchOrder, weighedBatch } from "../chem/weighed-batch.ts";
import { linesToWeigh } from "../chem/weighing-order.ts";
import { findStanding } from "./bucket-keeping.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { withDryGravities } from "./material-gravities.ts";
import { findOpenMix, holdStill } from "./mixes.ts";
import { openRecallsOfBuckets } from "./open-recalls.ts";
import { buckets, mixes, mixLines, revisionLines } from "./schema/index.ts";
import type { Standing } from "./standing.ts";

export type NewMix =
  | { kind: "opened"; id: string }
  | { kind: "open-already"; id: string }
  | { kind: "recalled"; why: string }
  /** The revision, and the bucket is not marked as one for a test. */
  | { kind: "not-approved"; is: Standing["is"] }
  | { kind: "refused"; faults: Fault[] };

const mostGrams = 1_000_000;
const mostWater = 10_000_000;

/**
 * Opens a mix of the revision that a bucket follows, with its lines as the batch sheet has them. One
 * bucket has one open mix at most: `open-already` names it.
 */
export async function openMix(
  db: Db,
  { bucketId, by, at, ...order }: Act & BatchOrder & { by: string; bucketId: string },
): Promise<NewMix> {
  return db.transaction(async (tx) => {
    await holdStill(tx, bucketId);
    const open = await findOpenMix(tx, bucketId);
    if (open) return { kind: "open-already", id: open };
    const [recall] = (await openRecallsOfBuckets(tx, [bucketId])).get(bucketId) ?? [];
    if (recall) return { kind: "recalled", why: recall.why };

    const recipe = await withDryGravities(
      tx,
      await readLines(tx, bucketId),
      ({ materialId }) => materialId,
    );
    const [first] = recipe;
    if (!first) throw new Error("a bucket follows a revision that has lines");
    const { revisionId, forTest } = first;
    const { is } = await findStanding(tx, revisionId, at);
    if (is !== "approved" && !forTest) return { kind: "not-approved", is };
    const batch = weighedBatch(recipe, order);
    if (batch.kind === "refused") return batch;
    const { baseGrams, scaleGrams, filled } = batch;
    const waterGrams = filled?.waterGrams ?? null;
    const tooMuch = faultsOfSize(batch.lines, waterGrams);
    if (tooMuch)
      return { kind: "refused", faults: [tooMuch(order.grams ? "grams" : "fill.litres")] };

    const id = uuidv7();
    await tx
      .insert(mixes)
      .values({ id, bucketId, revisionId, baseGrams, scaleGrams, waterGrams, by, at });
    const weighed = linesToWeigh(batch.lines.map(({ line, grams }) => ({ ...line, grams })));
    await tx.insert(mixLines).values(
      weighed.map(({ part, materialId, analysisId, grams }, place) => {
        return { mixId: id, n: place + 1, part, materialId, analysisId, grams };
      }),
    );
    const detail = {
      bucket: bucketId,
      revision: revisionId,
      baseGrams: baseGrams.toFixed(),
      lines: weighed.length,
    };
    await appendEvent(
      tx,
      { by, at },
      { kind: "mix opened", subject: "mix", subjectId: id, detail },
    );
    return { kind: "opened", id };
  });
}

const readLines = (tx: Db, bucketId: string) =>
  tx
    .select({
      revisionId: revisionLines.revisionId,
      forTest: buckets.forTest,
      part: revisionLines.part,
      amount: revisionLines.amount,
      materialId: revisionLines.materialId,
      analysisId: revisionLines.analysisId,
    })
    .from(buckets)
    .innerJoin(revisionLines, eq(revisionLines.revisionId, buckets.revisionId))
    .where(eq(buckets.id, bucketId))
    .orderBy(asc(revisionLines.position));

/** An addition can be a hundred times its base, and a thin slurry mostly water. */
function faultsOfSize(
  lines: readonly { grams: Decimal }[],
  waterGrams: Decimal | null,
): ((path: string) => Fault) | undefined {
  if (lines.some(({ grams }) => grams.gt(mostGrams)))
    return (path) => ({ path, says: `One line weighs at most ${mostGrams} g. Mix less.` });
  if (waterGrams?.gt(mostWater))
    return (path) => ({ path, says: `There is room for ${mostWater} g of water at most.` });
  return undefined;
}
