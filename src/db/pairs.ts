import { and, desc, eq, inArray, lt, or, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type KnownPair, readPairs } from "./pair-facts.ts";
import { pairStandingOf } from "./pair-standing.ts";
import { readableBy, type Scope } from "./recipes.ts";
import { pairs, people, recipes, revisions } from "./schema/index.ts";
import type { Standing } from "./standing.ts";

/** One of the two glazes of a pair. */
export type PairedGlaze = { id: string; slug: string; name: string; number: number; use: Use };

export type FoundPair = {
  id: string;
  over: PairedGlaze;
  under: PairedGlaze;
  about: string;
  by: { id: string; name: string };
  at: Date;
  standing: Standing;
  known: KnownPair;
};

export type NewPair =
  | { kind: "added"; id: string }
  | { kind: "there-already"; id: string }
  | { kind: "of-one" };

/** Puts a layered pair on record, of two revisions that were found through the reader's scope. */
export async function addPair(
  db: Db,
  params: Act & { by: string; overId: string; underId: string; about: string },
): Promise<NewPair> {
  const { overId, underId, about, by, at } = params;
  if (overId === underId) return { kind: "of-one" };
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const [made] = await tx
      .insert(pairs)
      .values({ id, overId, underId, about, addedBy: by, addedAt: at })
      .onConflictDoNothing()
      .returning({ id: pairs.id });
    if (!made) {
      const [there] = await tx
        .select({ id: pairs.id })
        .from(pairs)
        .where(and(eq(pairs.overId, overId), eq(pairs.underId, underId)));
      if (!there) throw new Error("a pair is on record once, and stays there");
      return { kind: "there-already", id: there.id };
    }
    const detail = { over: overId, under: underId };
    const happening = { kind: "pair added", subject: "pair", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

type Asking = { reader: Scope; now: Date };

/** One pair, where the reader may know of both its glazes. */
export async function findPair(
  db: Db,
  { id, ...asking }: Asking & { id: string },
): Promise<FoundPair | undefined> {
  if (!isUuid(id)) return undefined;
  const [pair] = await read(db, eq(pairs.id, id), { ...asking, limit: 1 });
  return pair;
}

/** Pairs, newest first, as far as the reader may know of both glazes; `after` is the last one's id. */
export async function listPairs(
  db: Db,
  { after, limit, ...asking }: Asking & { after?: string | undefined; limit: number },
): Promise<{ items: FoundPair[]; next: string | null }> {
  const which = after === undefined ? undefined : lt(pairs.id, after);
  const rows = await read(db, which, { ...asking, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

/** The pairs in which any revision of a recipe lies over or under another, newest first. */
export function listPairsOf(
  db: Db,
  { recipeId, ...asking }: Asking & { recipeId: string },
): Promise<FoundPair[]> {
  const own = db
    .select({ id: revisions.id })
    .from(revisions)
    .where(eq(revisions.recipeId, recipeId));
  const which = or(inArray(pairs.overId, own), inArray(pairs.underId, own));
  return read(db, which, { ...asking, limit: 100 });
}

const unders = alias(revisions, "unders");
const underRecipes = alias(recipes, "under_recipes");

async function read(
  db: Db,
  which: SQL | undefined,
  { reader, now, limit }: Asking & { limit: number },
): Promise<FoundPair[]> {
  const readable = db
    .select({ id: revisions.id })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(readableBy(reader));
  const rows = await db
    .select({
      id: pairs.id,
      over: {
        id: revisions.id,
        slug: recipes.slug,
        name: recipes.name,
        number: revisions.number,
        use: revisions.use,
      },
      under: {
        id: unders.id,
        slug: underRecipes.slug,
        name: underRecipes.name,
        number: unders.number,
        use: unders.use,
      },
      about: pairs.about,
      by: { id: people.id, name: people.name },
      at: pairs.addedAt,
    })
    .from(pairs)
    .innerJoin(revisions, eq(revisions.id, pairs.overId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(unders, eq(unders.id, pairs.underId))
    .innerJoin(underRecipes, eq(underRecipes.id, unders.recipeId))
    .innerJoin(people, eq(people.id, pairs.addedBy))
    .where(and(which, inArray(pairs.overId, readable), inArray(pairs.underId, readable)))
    .orderBy(desc(pairs.id))
    .limit(limit);
  const known = await readPairs(db, rows);
  return rows.map((row) => {
    const ofThis = known.get(row.id);
    if (!ofThis) throw new Error("every pair asked for was read");
    return { ...row, known: ofThis, standing: pairStandingOf(ofThis.facts, now) };
  });
}
