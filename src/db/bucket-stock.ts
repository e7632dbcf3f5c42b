import type { Decimal } from "decimal.js";
import { and, eq, type SQL } from "drizzle-orm";
import { findLastReadings } from "./bucket-readings.ts";
import { type FoundBucket, isOpen, notEmpty, readBuckets } from "./buckets.ts";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { revisions } from "./schema/index.ts";

/** A bucket that something is in, and how much as it was last told. */
export type Stocked = { bucket: FoundBucket; litres: Decimal };

/** The buckets of a recipe that was found through the reader's scope, of any revision, that are not empty. */
export const listStockOf = (
  db: Db,
  { recipeId, now }: { recipeId: string; now: Date },
): Promise<Stocked[]> => readStock(db, eq(revisions.recipeId, recipeId), now);

/** Every bucket that is not empty, as far as the reader may know of its recipe. */
export const listStock = (
  db: Db,
  { reader, now }: { reader: NonNullable<Reader>; now: Date },
): Promise<Stocked[]> => readStock(db, readableBy(reader), now);

async function readStock(db: Db, which: SQL | undefined, now: Date): Promise<Stocked[]> {
  const found = await readBuckets(db, and(which, notEmpty), now);
  const told = await findLastReadings.filled(
    db,
    found.map(({ id }) => id),
  );
  return found.map((bucket) => ({
    bucket,
    litres: told.get(bucket.id)?.litres ?? bucket.litres,
  }));
}

/** The addresses of recipes with a bucket that members may use now, as far as the reader may know of them. */
export async function listStockedRecipes(
  db: Db,
  { reader, now }: { reader: Reader; now: Date },
): Promise<string[]> {
  const open = await readBuckets(db, and(readableBy(reader), isOpen), now);
  const usable = open.filter(({ mayUse }) => mayUse.food || mayUse.decorative);
  return [...new Set(usable.map(({ recipe }) => recipe.slug))];
}
