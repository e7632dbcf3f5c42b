import { and, asc, desc, eq, not, sql } from "drizzle-orm";
import type { AnyPgColumn } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { isRemoved } from "./pictures.ts";
import { photos, pictures, tileColours } from "./schema/index.ts";

/** Of a tile's colours the one that counts first. */
const whichCounts = [desc(sql`${tileColours.from} = 'instrument'`), desc(tileColours.id)];

/** The colour that counts for the tile of that id: an instrument's before a camera's, the newest. */
export const newestColour = (db: Db, tileId: AnyPgColumn) =>
  db
    .select({
      lightness: tileColours.lightness,
      a: tileColours.a,
      b: tileColours.b,
      from: tileColours.from,
    })
    .from(tileColours)
    .where(eq(tileColours.tileId, tileId))
    .orderBy(...whichCounts)
    .limit(1)
    .as("colour");

/** The same of every tile that has one: where most are read, one look at them all takes less. */
export const newestColours = (db: Db) =>
  db
    .selectDistinctOn([tileColours.tileId], {
      tileId: tileColours.tileId,
      lightness: tileColours.lightness,
      a: tileColours.a,
      b: tileColours.b,
    })
    .from(tileColours)
    .orderBy(asc(tileColours.tileId), ...whichCounts)
    .as("colour");

/** The first picture of the tile of that id that nobody had removed. */
export const shownPicture = (db: Db, tileId: AnyPgColumn) =>
  db
    .select({
      sha256: photos.sha256,
      alt: photos.alt,
      width: pictures.width,
      height: pictures.height,
    })
    .from(photos)
    .innerJoin(pictures, eq(pictures.sha256, photos.sha256))
    .where(and(eq(photos.tileId, tileId), not(isRemoved)))
    .orderBy(asc(photos.id))
    .limit(1)
    .as("picture");
