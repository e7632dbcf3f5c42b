import { type AnyColumn, and, eq, exists, or, type SQL, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  photos,
  pictureBytes,
  pictures,
  recipes,
  revisions,
  testPhotos,
  tests,
  tiles,
  trialPhotos,
} from "./schema/index.ts";

/** The widths that are made of every picture, in pixels; none is larger than the picture itself. */
export const pictureWidths = [200, 600, 1200] as const;

/** Where the master stands among the widths. */
export const masterWidth = 0;

export type PictureWidth = (typeof pictureWidths)[number] | typeof masterWidth;

/** The one form in which pictures are kept. */
export const pictureType = "image/jpeg";

/** A picture ready to be kept: the master, its digest and size in pixels, and what was made of it. */
export type NewPicture = {
  sha256: string;
  width: number;
  height: number;
  bytes: Uint8Array;
  smaller: readonly { width: (typeof pictureWidths)[number]; bytes: Uint8Array }[];
};

export type NewPhoto =
  | { kind: "added"; id: string }
  | { kind: "there-already"; id: string }
  | { kind: "removed"; why: string };

/**
 * Hangs a picture on a tile. Equal pictures are kept once, whoever sends them and wherever they
 * hang; the same picture hangs on a tile once. One that a manager had removed does not come back.
 */
export async function addPhoto(
  db: Db,
  params: Act & { by: string; tileId: string; picture: NewPicture; alt: string },
): Promise<NewPhoto> {
  const { tileId, picture, alt, by, at } = params;
  const { sha256 } = picture;
  return db.transaction(async (tx) => {
    const isNew = await keepPicture(tx, picture, { by, at });
    const known = isNew ? undefined : await findKept(tx, { tileId, sha256 });
    if (known) return known;
    const id = uuidv7();
    await tx.insert(photos).values({ id, tileId, sha256, alt, by, at });
    const detail = { photo: id, sha256 };
    const happening = { kind: "photo added", subject: "tile", subjectId: tileId, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** @returns false where the picture is kept already; of two who send it at once the second waits. */
export async function keepPicture(
  tx: Db,
  { sha256, width, height, bytes, smaller }: NewPicture,
  { by, at }: { by: string; at: Date },
): Promise<boolean> {
  const [made] = await tx
    .insert(pictures)
    .values({ sha256, width, height, by, at })
    .onConflictDoNothing()
    .returning({ sha256: pictures.sha256 });
  if (!made) return false;
  const sizes = [{ width: masterWidth, bytes }, ...smaller];
  await tx.insert(pictureBytes).values(sizes.map((size) => ({ sha256, ...size })));
  return true;
}

async function findKept(
  tx: Db,
  { tileId, sha256 }: { tileId: string; sha256: string },
): Promise<NewPhoto | undefined> {
  const why = await whyRemoved(tx, sha256);
  if (why !== undefined) return { kind: "removed", why };
  const [hung] = await tx
    .select({ id: photos.id })
    .from(photos)
    .where(and(eq(photos.tileId, tileId), eq(photos.sha256, sha256)));
  return hung && { kind: "there-already", id: hung.id };
}

/** Why a manager had a picture removed, or undefined where nobody did. */
export async function whyRemoved(tx: Db, sha256: string): Promise<string | undefined> {
  const [master] = await tx
    .select({ why: pictureBytes.removedWhy })
    .from(pictureBytes)
    .where(and(eq(pictureBytes.sha256, sha256), eq(pictureBytes.width, masterWidth)));
  return master?.why ?? undefined;
}

export type FoundPicture = { kind: "found"; bytes: Uint8Array } | { kind: "removed"; at: Date };

/** A picture at one width, where it hangs on a tile, beside a test or at a trial that the reader may know of. */
export async function findPicture(
  db: Db,
  { sha256, width, reader }: { sha256: string; width: PictureWidth; reader: Reader },
): Promise<FoundPicture | undefined> {
  if (!/^[0-9a-f]{64}$/.test(sha256)) return undefined;
  const onTile = db
    .select({ id: photos.id })
    .from(photos)
    .innerJoin(tiles, eq(tiles.id, photos.tileId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(photos.sha256, sha256), readableBy(reader)));
  const besideTest = db
    .select({ id: testPhotos.id })
    .from(testPhotos)
    .innerJoin(tests, eq(tests.id, testPhotos.testId))
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(testPhotos.sha256, sha256), readableBy(reader)));
  const atTrial = db
    .select({ id: trialPhotos.id })
    .from(trialPhotos)
    .where(eq(trialPhotos.sha256, sha256));
  // Trials are for people of the studio, all of them.
  const hangs = or(exists(onTile), exists(besideTest), reader && exists(atTrial));
  return readPicture(db, { sha256, width, hangs });
}

/** A picture at one width, where it hangs somewhere that may be seen; its digest is one. */
export async function readPicture(
  db: Db,
  { sha256, width, hangs }: { sha256: string; width: PictureWidth; hangs: SQL | undefined },
): Promise<FoundPicture | undefined> {
  const [kept] = await db
    .select({ bytes: pictureBytes.bytes, removedAt: pictureBytes.removedAt })
    .from(pictureBytes)
    .where(and(eq(pictureBytes.sha256, sha256), eq(pictureBytes.width, width), hangs));
  if (!kept) return undefined;
  if (kept.bytes) return { kind: "found", bytes: kept.bytes };
  return kept.removedAt ? { kind: "removed", at: kept.removedAt } : undefined;
}

/**
 * Whether the picture of that digest was removed. It asks for the mark on the master and reads no
 * bytes, so that a list can ask it.
 */
export const isPictureRemoved = (sha256: AnyColumn) => sql<boolean>`exists (
  select 1 from picture_bytes
  where picture_bytes.sha256 = ${sha256}
    and picture_bytes.width = ${sql.raw(String(masterWidth))}
    and picture_bytes.removed_at is not null
)`;

/** Whether a tile's photo was removed. */
export const isRemoved = isPictureRemoved(photos.sha256);
