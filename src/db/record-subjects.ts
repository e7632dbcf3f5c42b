import { eq, inArray } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import type { EventRow } from "./events.ts";
import { findHandouts } from "./handout-names.ts";
import { findRecipesOfPlans } from "./plans.ts";
import {
  bodies,
  buckets,
  families,
  firings,
  imports,
  kilns,
  lots,
  materials,
  mixes,
  notes,
  offers,
  pairs,
  people,
  recalls,
  recipes,
  revisions,
  shareLinks,
  suppliers,
  tests,
  tiles,
  trials,
} from "./schema/index.ts";

/** What an event is about, as it is called today, and where its page is. */
export type Subject = { name: string; href: string | null };

type Finder = (db: Db, ids: string[]) => Promise<{ id: string; name: string; slug?: string }[]>;

/** One question for each kind of subject on the page, never one for each event. */
const finders: Partial<Record<string, { find: Finder; room: string | null }>> = {
  person: { find: findNames, room: null },
  material: { find: named(materials), room: "/materials" },
  recipe: { find: named(recipes), room: "/recipes" },
  note: { find: findRecipesOfNotes, room: "/recipes" },
  tile: { find: findRecipesOfTiles, room: "/recipes" },
  test: { find: findRecipesOfTests, room: "/recipes" },
  body: { find: named(bodies), room: "/bodies" },
  firing: { find: findFirings, room: "/firings" },
  kiln: { find: named(kilns), room: "/kilns" },
  supplier: { find: named(suppliers), room: "/suppliers" },
  lot: { find: findMaterialsOfLots, room: "/lots" },
  recall: { find: findRecalled, room: "/recalls" },
  offer: { find: findOffers, room: "/offers" },
  bucket: { find: findBuckets, room: "/buckets" },
  mix: { find: findMixes, room: "/mixes" },
  plan: { find: findRecipesOfPlans, room: "/recipes" },
  trial: { find: findTrials, room: "/trials" },
  pair: { find: findPairs, room: "/pairs" },
  family: { find: named(families), room: "/families" },
  handout: { find: findHandouts, room: null },
  import: { find: findImports, room: "/imports" },
  "share link": { find: findRecipesOfLinks, room: "/recipes" },
};

/** What some events are about, by the id of their subjects. */
export async function findSubjects(
  db: Db,
  rows: readonly EventRow[],
): Promise<Map<string, Subject>> {
  const found = new Map<string, Subject>();
  for (const [subject, finder] of Object.entries(finders)) {
    const ids = rows.filter((row) => row.subject === subject).map((row) => row.subjectId);
    if (!finder || ids.length === 0) continue;
    for (const { id, name, slug } of await finder.find(db, [...new Set(ids)])) {
      found.set(id, { name, href: finder.room && slug ? `${finder.room}/${slug}` : null });
    }
  }
  return found;
}

/** What is called by a name of its own, and whose page is known by it. */
function named(
  table:
    | typeof bodies
    | typeof families
    | typeof kilns
    | typeof materials
    | typeof recipes
    | typeof suppliers,
): Finder {
  const { id, name, slug } = table;
  return (db, ids) => db.select({ id, name, slug }).from(table).where(inArray(id, ids));
}

function findNames(db: Db, ids: string[]) {
  return db
    .select({ id: people.id, name: people.name })
    .from(people)
    .where(inArray(people.id, ids));
}

/** A firing is called by its kiln and the cone that it was fired for; its page is known by its id. */
async function findFirings(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: firings.id, kiln: kilns.name, cone: firings.cone })
    .from(firings)
    .innerJoin(kilns, eq(kilns.id, firings.kilnId))
    .where(inArray(firings.id, ids));
  return rows.map(({ id, kiln, cone }) => ({ id, name: `${kiln}, cone ${cone}`, slug: id }));
}

function findRecipesOfNotes(db: Db, ids: string[]) {
  return db
    .select({ id: notes.id, name: recipes.name, slug: recipes.slug })
    .from(notes)
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .where(inArray(notes.id, ids));
}

function findRecipesOfTiles(db: Db, ids: string[]) {
  return db
    .select({ id: tiles.id, name: recipes.name, slug: recipes.slug })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(inArray(tiles.id, ids));
}

function findRecipesOfTests(db: Db, ids: string[]) {
  return db
    .select({ id: tests.id, name: recipes.name, slug: recipes.slug })
    .from(tests)
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(inArray(tests.id, ids));
}

/** A lot is called by its material; its page is known by its id. */
function findMaterialsOfLots(db: Db, ids: string[]) {
  return db
    .select({ id: lots.id, name: materials.name, slug: lots.id })
    .from(lots)
    .innerJoin(materials, eq(materials.id, lots.materialId))
    .where(inArray(lots.id, ids));
}

/** A recall is called by the bucket, or by the material of the lot; its page is known by its id. */
async function findRecalled(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: recalls.id, bucket: buckets.name, material: materials.name })
    .from(recalls)
    .leftJoin(buckets, eq(buckets.id, recalls.bucketId))
    .leftJoin(lots, eq(lots.id, recalls.lotId))
    .leftJoin(materials, eq(materials.id, lots.materialId))
    .where(inArray(recalls.id, ids));
  return rows.map(({ id, bucket, material }) => ({
    id,
    name: bucket === null ? `a lot of ${material}` : `the bucket ${bucket}`,
    slug: id,
  }));
}

/** An offer is called by the recipe that it was made to; its page is known by its id. */
function findOffers(db: Db, ids: string[]) {
  return db
    .select({ id: offers.id, name: recipes.name, slug: offers.id })
    .from(offers)
    .innerJoin(recipes, eq(recipes.id, offers.recipeId))
    .where(inArray(offers.id, ids));
}

/** The page of a bucket is known by its id. */
async function findBuckets(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: buckets.id, name: buckets.name })
    .from(buckets)
    .where(inArray(buckets.id, ids));
  return rows.map(({ id, name }) => ({ id, name, slug: id }));
}

/** A mix is called by the bucket that it went into; its page is known by its id. */
async function findMixes(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: mixes.id, name: buckets.name })
    .from(mixes)
    .innerJoin(buckets, eq(buckets.id, mixes.bucketId))
    .where(inArray(mixes.id, ids));
  return rows.map(({ id, name }) => ({ id, name, slug: id }));
}

/** An import is called by its file; its page is known by its id. */
async function findImports(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: imports.id, name: imports.fileName })
    .from(imports)
    .where(inArray(imports.id, ids));
  return rows.map(({ id, name }) => ({ id, name: name || "a file", slug: id }));
}

/** The page of a trial is known by its id. */
async function findTrials(db: Db, ids: string[]) {
  const rows = await db
    .select({ id: trials.id, name: trials.name })
    .from(trials)
    .where(inArray(trials.id, ids));
  return rows.map(({ id, name }) => ({ id, name, slug: id }));
}

function findRecipesOfLinks(db: Db, ids: string[]) {
  return db
    .select({ id: shareLinks.id, name: recipes.name, slug: recipes.slug })
    .from(shareLinks)
    .innerJoin(revisions, eq(revisions.id, shareLinks.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(inArray(shareLinks.id, ids));
}

/** A pair is called by its two glazes; its page is known by its id. */
async function findPairs(db: Db, ids: string[]) {
  const unders = alias(revisions, "unders");
  const underRecipes = alias(recipes, "under_recipes");
  const rows = await db
    .select({ id: pairs.id, over: recipes.name, under: underRecipes.name })
    .from(pairs)
    .innerJoin(revisions, eq(revisions.id, pairs.overId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(unders, eq(unders.id, pairs.underId))
    .innerJoin(underRecipes, eq(underRecipes.id, unders.recipeId))
    .where(inArray(pairs.id, ids));
  return rows.map(({ id, over, under }) => ({ id, name: `${over} over ${under}`, slug: id }));
}
