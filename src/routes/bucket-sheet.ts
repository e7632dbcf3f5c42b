import { v7 as uuidv7 } from "uuid";
import type { TypedMix } from "../../views/buckets/mixes.tsx";
import { BucketPage } from "../../views/buckets/page.tsx";
import { driftOf } from "../chem/colour-comparing.ts";
import { countBucketUses, listBucketUses } from "../db/bucket-uses.ts";
import type { FoundBucket } from "../db/buckets.ts";
import { listMixes } from "../db/mixes.ts";
import { listProofTiles } from "../db/proof-tiles.ts";
import type { Typed as TypedFields } from "../wire/body.ts";
import { type Ctx, memberOf } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { careOf } from "./bucket-care.ts";
import { contentsOfBucket } from "./bucket-contents.ts";
import { shownBucket } from "./bucket-json.ts";
import { differenceJson } from "./colour-json.ts";
import { usedLots } from "./mix-json.ts";

/** A bucket's proof tiles and how far they went from the first. */
export async function proofsOf(c: Ctx, { id }: FoundBucket) {
  const { db, viewer: reader, studio } = c.var;
  const tiles = await listProofTiles(db, { bucketId: id, reader });
  const { inOrder, drift } = driftOf(tiles);
  return { proofs: inOrder, drift, tolerance: studio.colourTolerance?.toNumber() ?? null };
}

/** What a bucket's JSON tells of its proof tiles, oldest first. */
export const proofsJson = ({ proofs, drift, tolerance }: Awaited<ReturnType<typeof proofsOf>>) => ({
  colourTolerance: tolerance,
  proofs: proofs.map(({ id, on }) => {
    const later = drift?.later.find(({ tile }) => tile.id === id);
    return {
      tile: id,
      on: on.toISOString().slice(0, 10),
      first: drift?.first.id === id,
      fromFirst: later ? differenceJson(later.difference) : null,
    };
  }),
});

/** As many mixes as a bucket's page and JSON tell of. */
const mostMixes = 50;

/** What was mixed into a bucket, newest first. */
export const mixesOf = (c: Ctx, { id }: FoundBucket) =>
  listMixes(c.var.db, { bucketId: id, limit: mostMixes });

/** As many uses as its keepers are told of. */
const mostUses = 200;

/** How many used a bucket; for its keepers, who. */
export async function usesOf(c: Ctx, { id: bucketId }: FoundBucket) {
  const { db } = c.var;
  const isKeeper = memberOf(c).role === "manager";
  return {
    counted: await countBucketUses(db, bucketId),
    uses: isKeeper ? await listBucketUses(db, { bucketId, limit: mostUses }) : null,
  };
}

type Typed = {
  faults: readonly Fault[];
  why?: string;
  mix?: TypedMix;
  /** What was typed into a form of its care. */
  typed?: TypedFields;
};

/** The page of a bucket, with what was typed still in its forms. */
export async function bucketSheet(
  c: Ctx,
  bucket: FoundBucket,
  { faults, why = "", mix, typed = {} }: Typed = { faults: [] },
) {
  const proofs = await proofsOf(c, bucket);
  const mixes = await mixesOf(c, bucket);
  const care = await careOf(c, bucket);
  const used = await usesOf(c, bucket);
  const mayKeep = memberOf(c).role === "manager";
  return {
    page: { title: bucket.name, here: "buckets" as const },
    view: () =>
      BucketPage({
        bucket: shownBucket(bucket),
        ...proofs,
        contents: contentsOfBucket(bucket),
        care,
        used,
        typed: (path) => typedText(typed, path),
        newKey: uuidv7,
        mixing: {
          bucketId: bucket.id,
          mixes: mixes.map((mixed) => ({ ...mixed, used: usedLots(mixed) })),
          mayMix: mayKeep,
          typedMix: mix ?? {
            grams: "",
            litres: "",
            specificGravity: "",
            scaleGrams: c.var.studio.scaleGrams.toFixed(),
          },
          faults,
          idempotencyKey: uuidv7(),
        },
        mayKeep,
        mayRecall: memberOf(c).role !== "member",
        why,
        faults,
      }),
  };
}
