import { hazards as knownHazards } from "../../views/parts/hazard-words.ts";
import { type BucketCard, findBucketCard, keepsUntil } from "../db/bucket-cards.ts";
import { findBucketPowders } from "../db/bucket-powders.ts";
import type { FoundBucket } from "../db/buckets.ts";
import { signals } from "../db/data-sheets.ts";
import type { Ctx } from "../wire/context.ts";
import { markOf } from "./bucket-mark.ts";

/** All that a label of a bucket says, whatever the paper. */
export async function labelOf(c: Ctx, bucket: FoundBucket) {
  const { db } = c.var;
  const card = await findBucketCard(db, bucket.id);
  const { directions, mixedAt } = card;
  const months = directions?.keepsMonths ?? null;
  return {
    bucket: { id: bucket.id, name: bucket.name },
    mark: markOf(bucket),
    recipe: bucket.recipe,
    number: bucket.number,
    digest: bucket.digest,
    cones: card.cones,
    atmosphere: card.atmosphere,
    mixedAt,
    keepsUntil: mixedAt && months ? keepsUntil(mixedAt, months) : null,
    ...dangersOf(card),
    dissolves: (await findBucketPowders(db, [bucket.id])).get(bucket.id)?.dissolves ?? false,
    ask: directions?.ask ?? "",
  };
}

/**
 * What can hurt of the powders: the gravest signal word and all statements of the sheets that were put
 * down, and for the other powders our own names of hazards. Dust is for whoever opens a bag.
 */
export function dangersOf({ powders }: Pick<BucketCard, "powders">) {
  const sheets = powders.flatMap(({ sheet }) => (sheet ? [sheet] : []));
  const without = powders.filter(({ sheet }) => sheet === null);
  const named = new Set(without.flatMap(({ hazards }) => hazards));
  return {
    signal: signals.find((word) => sheets.some(({ signal }) => signal === word)) ?? null,
    statements: [...new Set(sheets.flatMap(({ statements }) => statements))],
    hazards: knownHazards.filter((hazard) => hazard !== "dust" && named.has(hazard)),
  };
}

/** Where the code of a label leads; undefined where nobody said where the studio is reached. */
export function scanAddress(c: Ctx, bucketId: string): string | undefined {
  const { publicUrl, isDemo } = c.var.config;
  const base = publicUrl ?? (isDemo ? new URL(c.req.url).origin : undefined);
  return base && `${base}${scanPath(bucketId)}`;
}

/** Short, so that the code on a small label is coarse enough to be read. */
export const scanPath = (bucketId: string): string => `/b/${bucketId}`;
