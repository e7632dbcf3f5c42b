import { v7 as uuidv7 } from "uuid";
import { sha256 } from "../src/db/digests.ts";
import {
  notes,
  noteTexts,
  photos,
  pictureBytes,
  pictures,
  recipes,
  revisions,
  tiles,
} from "../src/db/schema/index.ts";
import type { TestStudio } from "./studio.ts";

export const words = "Marta told me at the wheel that she adds a spoon of it.";

let count = 0;

/** A recipe of somebody with a note on it and a tile whose picture is kept in two widths. */
export async function keepWork(studio: TestStudio, by: string) {
  const { db } = studio;
  count += 1;
  const at = new Date("2026-02-01T10:00:00Z");
  const [recipeId, revisionId, noteId, tileId, photoId] = [
    uuidv7(),
    uuidv7(),
    uuidv7(),
    uuidv7(),
    uuidv7(),
  ];
  const name = `Ebb Green ${count}`;
  const slug = `ebb-green-${count}`;
  const digest = sha256(name);
  await db.insert(recipes).values({
    id: recipeId,
    slug,
    name,
    nameKey: name.toLowerCase(),
    ownerId: by,
    head: 1,
    shownTo: "studio",
    addedAt: at,
  });
  await db.insert(revisions).values({
    id: revisionId,
    recipeId,
    number: 1,
    authorId: by,
    use: "decorative",
    coneLow: "6",
    coneHigh: "6",
    coneLowPlace: 30,
    coneHighPlace: 30,
    atmosphere: "oxidation",
    surface: "matt",
    about: "",
    message: "",
    meltDigest: digest,
    digest,
    publishedAt: at,
  });
  await db.insert(notes).values({
    id: noteId,
    recipeId,
    revisionId,
    anchor: "whole",
    snapshot: { says: "revision 1" },
    textDigest: sha256(words),
    by,
    at,
  });
  await db.insert(noteTexts).values({ noteId, text: words });
  const fired = { cone: "6", atmosphere: "oxidation", clay: "", remark: "" } as const;
  await db.insert(tiles).values({ id: tileId, revisionId, ...fired, by, at });
  const sha = sha256(`picture ${count}`);
  await db.insert(pictures).values({ sha256: sha, width: 600, height: 600, by, at });
  await db.insert(pictureBytes).values([
    { sha256: sha, width: 0, bytes: new Uint8Array([1, 2, 3]) },
    { sha256: sha, width: 200, bytes: new Uint8Array([1]) },
  ]);
  await db.insert(photos).values({ id: photoId, tileId, sha256: sha, alt: "a green tile", by, at });
  return { recipeId, revisionId, slug, noteId, tileId, photoId, sha256: sha };
}
