import { v7 as uuidv7 } from "uuid";
import { ScanPage } from "../../views/scan/page.tsx";
import { findBucketCard } from "../db/bucket-cards.ts";
import { findBucketPowders } from "../db/bucket-powders.ts";
import { findLastReadings } from "../db/bucket-readings.ts";
import { countBucketUses, findLastOwnUse } from "../db/bucket-uses.ts";
import type { FoundBucket } from "../db/buckets.ts";
import { listPairsOf } from "../db/pairs.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundTile, listTiles } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { directionsJson, readingJson } from "./bucket-care-json.ts";
import { dangersOf } from "./bucket-label.ts";
import { becauseForVisitors, markOf } from "./bucket-mark.ts";
import { mayUndoUse, useRefused } from "./bucket-use-rules.ts";

/** As many pictures as show what it looks like; the recipe's page has them all. */
const mostTiles = 4;

/** All that the page behind a bucket's code tells. A visitor is told no names. */
export async function scanOf(c: Ctx, bucket: FoundBucket) {
  const { db, viewer: reader, now } = c.var;
  const { id, recipe, number } = bucket;
  const card = await findBucketCard(db, id);
  const found = await findRecipe(db, { slug: recipe.slug, reader });
  const pairs = found ? await listPairsOf(db, { recipeId: found.id, reader, now }) : [];
  const tiles = await listTiles(db, { meltDigest: card.meltDigest, reader });
  const sound = tiles.filter(({ withdrawn, layered }) => !withdrawn && !layered);
  const powders = (await findBucketPowders(db, [id])).get(id);
  const ownUse = reader && (await findLastOwnUse(db, { bucketId: id, by: reader.id }));
  return {
    bucket,
    card,
    forVisitor: reader === undefined,
    mark: markOf(bucket),
    because: reader ? bucket.mayUse.because : becauseForVisitors(bucket),
    ...dangersOf(card),
    allHazards: powders?.hazards ?? [],
    dissolves: powders?.dissolves ?? false,
    runs: sound.some(({ movement }) => movement === "runs"),
    measured: (await findLastReadings.measured(db, [id])).get(id) ?? null,
    stirredAt: (await findLastReadings.stirred(db, [id])).get(id)?.at ?? null,
    mixedAt: card.mixedAt,
    tiles: sound.filter(isPictured).reverse().slice(0, mostTiles),
    pairs: pairs.filter(({ over, under }) =>
      [over, under].some((glaze) => glaze.slug === recipe.slug && glaze.number === number),
    ),
    uses: await countBucketUses(db, id),
    ownUse: ownUse && mayUndoUse(c, ownUse) ? ownUse : null,
    refused: useRefused(bucket) ?? null,
  };
}

export type Scan = Awaited<ReturnType<typeof scanOf>>;

/** A tile on a body of the studio that somebody took a picture of. */
const isPictured = ({ body, photos }: FoundTile): boolean =>
  body !== null && photos.some(({ removed }) => !removed);

export const scanJson = (scan: Scan) => {
  const { bucket, card, forVisitor, measured } = scan;
  const directions = card.directions && directionsJson(card.directions);
  return {
    bucket: { id: bucket.id, name: bucket.name },
    recipe: bucket.recipe,
    revision: bucket.number,
    mark: scan.mark,
    because: scan.because,
    cones: card.cones,
    atmosphere: card.atmosphere,
    directions: forVisitor && directions ? withoutNames(directions) : directions,
    signal: scan.signal,
    statements: scan.statements,
    hazards: scan.allHazards,
    dissolves: scan.dissolves,
    runs: scan.runs,
    lastMeasured: measured && !forVisitor ? readingJson({ ...measured, dry: null }) : null,
    stirredAt: scan.stirredAt,
    mixedAt: scan.mixedAt,
    tiles: scan.tiles.map(({ id, cone, body, photos }) => ({
      ...{ id, cone, body },
      photo: photos.find(({ removed }) => !removed)?.sha256 ?? null,
    })),
    overlaps: scan.pairs.map(({ id, over, under, standing }) => ({
      id,
      over: { slug: over.slug, name: over.name, revision: over.number },
      under: { slug: under.slug, name: under.name, revision: under.number },
      standing: { is: standing.is, for: standing.for },
    })),
    used: scan.uses,
  };
};

const withoutNames = ({ by: _, ask: __, ...said }: ReturnType<typeof directionsJson>) => said;

/** The page, with what was typed still in it. */
export const scanSheet = (c: Ctx, scan: Scan, what = "", faults: readonly Fault[] = []) => ({
  page: {
    title: `May I use ${scan.bucket.name}?`,
    here: c.var.viewer ? ("buckets" as const) : ("none" as const),
  },
  view: () => ScanPage({ ...scan, what, faults, newKey: uuidv7 }),
});
