import { randomBytes } from "node:crypto";
import { and, asc, desc, eq, inArray, isNull, or, type SQL } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  families,
  handoutRevisions,
  handouts,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";

type NewHandout = Act & {
  by: string;
  /** Null where one recipe is handed out by itself. */
  familyId: string | null;
  region: string;
  /** In the order to show them; whoever makes it may hand them out. */
  revisionIds: readonly string[];
};

/**
 * Hands revisions out to whoever holds the link, until it is ended.
 *
 * @returns with the path of the link. Its token is nowhere else: only its hash is stored.
 */
export async function makeHandout(
  db: Db,
  { familyId, region, revisionIds, by, at }: NewHandout,
): Promise<{ id: string; path: string }> {
  const token = randomBytes(24).toString("base64url");
  const id = uuidv7();
  await db.transaction(async (tx) => {
    const tokenHash = sha256(token);
    await tx.insert(handouts).values({ id, familyId, region, tokenHash, madeBy: by, madeAt: at });
    const places = revisionIds.map((revisionId, position) => ({
      handoutId: id,
      position,
      revisionId,
    }));
    await tx.insert(handoutRevisions).values(places);
    const detail = { revisions: revisionIds.length, family: familyId };
    const happening = { kind: "handout made", subject: "handout", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
  });
  return { id, path: `/handouts/${token}` };
}

/** What a token hands out; `revisionIds` in their order. */
export type FoundHandout = {
  id: string;
  family: { id: string; slug: string; name: string; intro: string } | null;
  region: string;
  madeAt: Date;
  revisionIds: string[];
};

/** What a link hands out, whoever holds it; undefined where it was ended or never was. */
export async function findHandout(
  db: Db,
  { token }: { token: string },
): Promise<FoundHandout | undefined> {
  const [found] = await db
    .select({
      id: handouts.id,
      region: handouts.region,
      madeAt: handouts.madeAt,
      family: {
        id: families.id,
        slug: families.slug,
        name: families.name,
        intro: families.intro,
      },
    })
    .from(handouts)
    .leftJoin(families, eq(families.id, handouts.familyId))
    .where(and(eq(handouts.tokenHash, sha256(token)), isNull(handouts.revokedAt)));
  if (!found) return undefined;
  const places = await db
    .select({ revisionId: handoutRevisions.revisionId })
    .from(handoutRevisions)
    .where(eq(handoutRevisions.handoutId, found.id))
    .orderBy(asc(handoutRevisions.position));
  return { ...found, revisionIds: places.map(({ revisionId }) => revisionId) };
}

/** A link that still works. `family` is null where it hands out one recipe by itself. */
export type OpenHandout = {
  id: string;
  family: { slug: string; name: string } | null;
  recipes: { slug: string; name: string; number: number }[];
  madeBy: string;
  madeAt: Date;
};

/** The links that hand out a revision of a recipe, or a family's; newest first, of those the reader may end. */
export async function listHandouts(
  db: Db,
  {
    reader,
    ...of
  }: { reader: NonNullable<Reader> } & ({ recipeId: string } | { familyId: string }),
): Promise<OpenHandout[]> {
  const which =
    "familyId" in of
      ? eq(handouts.familyId, of.familyId)
      : inArray(handouts.id, holding(db, eq(revisions.recipeId, of.recipeId)));
  return readOpen(db, and(which, endableBy(db, reader)));
}

export type HandoutToEnd = OpenHandout & { mayEnd: boolean };

/** A link that still works, where the reader may know of what it hands out. */
export async function findOpenHandout(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<HandoutToEnd | undefined> {
  if (!isUuid(id)) return undefined;
  const known = inArray(handouts.id, holding(db, readableBy(reader)));
  const [found] = await readOpen(db, and(eq(handouts.id, id), known));
  if (!found) return undefined;
  const ends = reader && (await readOpen(db, and(eq(handouts.id, id), endableBy(db, reader))));
  return { ...found, mayEnd: (ends?.length ?? 0) > 0 };
}

/** Whoever made it, a manager, and each owner of a recipe that it hands out. */
const endableBy = (db: Db, reader: NonNullable<Reader>): SQL | undefined =>
  reader.role === "manager"
    ? undefined
    : or(
        eq(handouts.madeBy, reader.id),
        inArray(handouts.id, holding(db, eq(recipes.ownerId, reader.id))),
      );

/** The handouts that hold a revision of such recipes. */
const holding = (db: Db, which: SQL | undefined) =>
  db
    .select({ id: handoutRevisions.handoutId })
    .from(handoutRevisions)
    .innerJoin(revisions, eq(revisions.id, handoutRevisions.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(which);

async function readOpen(db: Db, which: SQL | undefined): Promise<OpenHandout[]> {
  const rows = await db
    .select({
      id: handouts.id,
      family: { slug: families.slug, name: families.name },
      madeBy: people.name,
      madeAt: handouts.madeAt,
    })
    .from(handouts)
    .innerJoin(people, eq(people.id, handouts.madeBy))
    .leftJoin(families, eq(families.id, handouts.familyId))
    .where(and(which, isNull(handouts.revokedAt)))
    .orderBy(desc(handouts.id));
  if (rows.length === 0) return [];
  const held = await db
    .select({
      handoutId: handoutRevisions.handoutId,
      slug: recipes.slug,
      name: recipes.name,
      number: revisions.number,
    })
    .from(handoutRevisions)
    .innerJoin(revisions, eq(revisions.id, handoutRevisions.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(
      inArray(
        handoutRevisions.handoutId,
        rows.map(({ id }) => id),
      ),
    )
    .orderBy(asc(handoutRevisions.handoutId), asc(handoutRevisions.position));
  return rows.map((row) => ({
    ...row,
    recipes: held
      .filter(({ handoutId }) => handoutId === row.id)
      .map(({ slug, name, number }) => ({ slug, name, number })),
  }));
}

export type HandoutEnd = { kind: "ended" } | { kind: "ended-before" };

/** Ends a link: whoever holds it reads nothing from now on. */
export async function endHandout(
  db: Db,
  { handoutId, by, at }: Act & { by: string; handoutId: string },
): Promise<HandoutEnd> {
  return db.transaction(async (tx) => {
    const [ended] = await tx
      .update(handouts)
      .set({ revokedAt: at, revokedBy: by })
      .where(and(eq(handouts.id, handoutId), isNull(handouts.revokedAt)))
      .returning({ id: handouts.id });
    if (!ended) return { kind: "ended-before" };
    const happening = {
      kind: "handout revoked",
      subject: "handout",
      subjectId: handoutId,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "ended" };
  });
}
