import { and, asc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import {
  isPictureRemoved,
  keepPicture,
  type NewPhoto,
  type NewPicture,
  whyRemoved,
} from "./pictures.ts";
import { pictures, testPhotos } from "./schema/index.ts";

export type Taken = "before" | "after";

export type FoundTestPhoto = {
  id: string;
  taken: Taken;
  sha256: string;
  alt: string;
  width: number;
  height: number;
  /** A manager had the picture removed; that it was there stays on record. */
  removed: boolean;
};

/**
 * Puts a picture of the tile before or after a test beside it. Equal pictures are kept once; the same
 * one is beside a test once, and one that a manager had removed does not come back.
 */
export async function addTestPhoto(
  db: Db,
  params: Act & { by: string; testId: string; taken: Taken; picture: NewPicture; alt: string },
): Promise<NewPhoto> {
  const { testId, taken, picture, alt, by, at } = params;
  const { sha256 } = picture;
  return db.transaction(async (tx) => {
    if (!(await keepPicture(tx, picture, { by, at }))) {
      const why = await whyRemoved(tx, sha256);
      if (why !== undefined) return { kind: "removed", why };
      const [hung] = await tx
        .select({ id: testPhotos.id })
        .from(testPhotos)
        .where(and(eq(testPhotos.testId, testId), eq(testPhotos.sha256, sha256)));
      if (hung) return { kind: "there-already", id: hung.id };
    }
    const id = uuidv7();
    await tx.insert(testPhotos).values({ id, testId, sha256, taken, alt, by, at });
    const happening = {
      kind: "test photo added",
      subject: "test",
      subjectId: testId,
      detail: { photo: id, sha256, taken },
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** The pictures beside one test, in the order in which they came. */
export function listTestPhotos(db: Db, { testId }: { testId: string }): Promise<FoundTestPhoto[]> {
  return db
    .select({
      id: testPhotos.id,
      taken: testPhotos.taken,
      sha256: testPhotos.sha256,
      alt: testPhotos.alt,
      width: pictures.width,
      height: pictures.height,
      removed: isPictureRemoved(testPhotos.sha256),
    })
    .from(testPhotos)
    .innerJoin(pictures, eq(pictures.sha256, testPhotos.sha256))
    .where(eq(testPhotos.testId, testId))
    .orderBy(asc(testPhotos.id));
}
