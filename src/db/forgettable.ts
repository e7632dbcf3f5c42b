import { and, asc, eq, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { latestWords } from "./note-words.ts";
import {
  notes,
  noteTexts,
  people,
  photos,
  pictureBytes,
  recipes,
  revisions,
  testPhotos,
  tests,
  tiles,
  trialPhotos,
} from "./schema/index.ts";

export type What = "person" | "note" | "picture";

export type Removal = { at: Date; by: string | null; why: string };

/** What can be forgotten, as it stands: the name, the words or the description, and where it is. */
export type Forgettable = {
  what: What;
  which: string;
  says: string | null;
  recipe: { slug: string; name: string } | null;
  /** Set where it was forgotten before. */
  removal: Removal | null;
};

type Found = {
  says: string | null;
  slug: string | null;
  recipeName: string | null;
  removedAt: Date | null;
  removedWhy: string | null;
  remover: string | null;
};

const remover = alias(people, "remover");

const finders: Record<What, (db: Db, which: string) => Promise<Found[]>> = {
  person: findPersonOrPseudonym,
  note: findNote,
  picture: findPicture,
};

/** A person, a note or a picture that is or was here. `which` comes back as it is on record. */
export async function findForgettable(
  db: Db,
  { what, which: typed }: { what: What; which: string },
): Promise<Forgettable | undefined> {
  const which = typed.toLowerCase();
  const [found] = await finders[what](db, which);
  if (!found) return undefined;
  return {
    what,
    which,
    says: found.says,
    recipe:
      found.slug === null || found.recipeName === null
        ? null
        : { slug: found.slug, name: found.recipeName },
    removal: found.removedAt && {
      at: found.removedAt,
      by: found.remover,
      why: found.removedWhy ?? "",
    },
  };
}

function findPersonOrPseudonym(db: Db, which: string) {
  return db
    .select({
      says: people.name,
      slug: sql<null>`null`,
      recipeName: sql<null>`null`,
      removedAt: people.removedAt,
      removedWhy: people.removedWhy,
      remover: remover.name,
    })
    .from(people)
    .leftJoin(remover, eq(remover.id, people.removedBy))
    .where(eq(people.id, which));
}

function findNote(db: Db, which: string) {
  return db
    .select({
      says: latestWords,
      slug: recipes.slug,
      recipeName: recipes.name,
      removedAt: noteTexts.removedAt,
      removedWhy: noteTexts.removedWhy,
      remover: remover.name,
    })
    .from(noteTexts)
    .innerJoin(notes, eq(notes.id, noteTexts.noteId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .leftJoin(remover, eq(remover.id, noteTexts.removedBy))
    .where(eq(noteTexts.noteId, which));
}

/** A picture where it first hung: on a tile, else beside a test, else at a trial. One that hangs nowhere is not on record. */
async function findPicture(db: Db, which: string): Promise<Found[]> {
  const onTiles = await findOnTiles(db, which);
  if (onTiles.length > 0) return onTiles;
  const besideTests = await findBesideTests(db, which);
  return besideTests.length > 0 ? besideTests : findAtTrials(db, which);
}

function findOnTiles(db: Db, which: string) {
  return db
    .select({
      says: photos.alt,
      slug: recipes.slug,
      recipeName: recipes.name,
      removedAt: pictureBytes.removedAt,
      removedWhy: pictureBytes.removedWhy,
      remover: remover.name,
    })
    .from(photos)
    .innerJoin(pictureBytes, and(eq(pictureBytes.sha256, photos.sha256), eq(pictureBytes.width, 0)))
    .innerJoin(tiles, eq(tiles.id, photos.tileId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(remover, eq(remover.id, pictureBytes.removedBy))
    .where(eq(photos.sha256, which))
    .orderBy(asc(photos.id))
    .limit(1);
}

/** A trial is of no one recipe. */
function findAtTrials(db: Db, which: string) {
  return db
    .select({
      says: trialPhotos.alt,
      slug: sql<null>`null`,
      recipeName: sql<null>`null`,
      removedAt: pictureBytes.removedAt,
      removedWhy: pictureBytes.removedWhy,
      remover: remover.name,
    })
    .from(trialPhotos)
    .innerJoin(
      pictureBytes,
      and(eq(pictureBytes.sha256, trialPhotos.sha256), eq(pictureBytes.width, 0)),
    )
    .leftJoin(remover, eq(remover.id, pictureBytes.removedBy))
    .where(eq(trialPhotos.sha256, which))
    .orderBy(asc(trialPhotos.id))
    .limit(1);
}

function findBesideTests(db: Db, which: string) {
  return db
    .select({
      says: testPhotos.alt,
      slug: recipes.slug,
      recipeName: recipes.name,
      removedAt: pictureBytes.removedAt,
      removedWhy: pictureBytes.removedWhy,
      remover: remover.name,
    })
    .from(testPhotos)
    .innerJoin(
      pictureBytes,
      and(eq(pictureBytes.sha256, testPhotos.sha256), eq(pictureBytes.width, 0)),
    )
    .innerJoin(tests, eq(tests.id, testPhotos.testId))
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(remover, eq(remover.id, pictureBytes.removedBy))
    .where(eq(testPhotos.sha256, which))
    .orderBy(asc(testPhotos.id))
    .limit(1);
}
