import { randomBytes } from "node:crypto";
import { and, desc, eq, isNull } from "drizzle-orm";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { people, recipes, revisions, shareLinks } from "./schema/index.ts";

export type NewShareLink =
  | { kind: "made"; id: string; path: string }
  | { kind: "no-such-revision" };

/**
 * A link that shows one revision to whoever holds it, until it is revoked. The recipe was found
 * through the scope of somebody who may revise it.
 *
 * @returns with the path of the link. Its token is nowhere else: only its hash is stored.
 */
export async function makeShareLink(
  db: Db,
  { recipeId, number, by, at }: Act & { by: string; recipeId: string; number: number },
): Promise<NewShareLink> {
  const token = randomBytes(24).toString("base64url");
  return db.transaction(async (tx) => {
    const [revision] = await tx
      .select({ id: revisions.id })
      .from(revisions)
      .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
    if (!revision) return { kind: "no-such-revision" };
    const id = uuidv7();
    await tx.insert(shareLinks).values({
      id,
      revisionId: revision.id,
      tokenHash: sha256(token),
      madeBy: by,
      madeAt: at,
    });
    const detail = { revision: revision.id, number };
    await appendEvent(
      tx,
      { by, at },
      { kind: "share link made", subject: "share link", subjectId: id, detail },
    );
    return { kind: "made", id, path: `/shared/${token}` };
  });
}

export type OpenLink = { id: string; number: number; madeBy: string; madeAt: Date };

/** The links by which revisions of a recipe can still be read, newest first. */
export const listShareLinks = (db: Db, { recipeId }: { recipeId: string }): Promise<OpenLink[]> =>
  db
    .select({
      id: shareLinks.id,
      number: revisions.number,
      madeBy: people.name,
      madeAt: shareLinks.madeAt,
    })
    .from(shareLinks)
    .innerJoin(revisions, eq(revisions.id, shareLinks.revisionId))
    .innerJoin(people, eq(people.id, shareLinks.madeBy))
    .where(and(eq(revisions.recipeId, recipeId), isNull(shareLinks.revokedAt)))
    .orderBy(desc(shareLinks.id));

export type FoundLink = {
  id: string;
  recipe: { slug: string; name: string; owner: { name: string } };
  mayRevoke: boolean;
};

/** A link that still works, where the reader may know of its recipe. */
export async function findShareLink(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<FoundLink | undefined> {
  if (!isUuid(id)) return undefined;
  const [link] = await db
    .select({
      id: shareLinks.id,
      slug: recipes.slug,
      name: recipes.name,
      ownerId: recipes.ownerId,
      owner: people.name,
    })
    .from(shareLinks)
    .innerJoin(revisions, eq(revisions.id, shareLinks.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(eq(shareLinks.id, id), isNull(shareLinks.revokedAt), readableBy(reader)));
  if (!link) return undefined;
  const { slug, name, owner, ownerId } = link;
  return {
    id,
    recipe: { slug, name, owner: { name: owner } },
    mayRevoke: reader?.role === "manager" || reader?.id === ownerId,
  };
}

export type Revocation = { kind: "revoked" } | { kind: "revoked-before" };

/** Ends a link: whoever holds it reads nothing from now on. */
export async function revokeShareLink(
  db: Db,
  { linkId, by, at }: Act & { by: string; linkId: string },
): Promise<Revocation> {
  return db.transaction(async (tx) => {
    const [revoked] = await tx
      .update(shareLinks)
      .set({ revokedAt: at, revokedBy: by })
      .where(and(eq(shareLinks.id, linkId), isNull(shareLinks.revokedAt)))
      .returning({ id: shareLinks.id });
    if (!revoked) return { kind: "revoked-before" };
    const happening = {
      kind: "share link revoked",
      subject: "share link",
      subjectId: linkId,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "revoked" };
  });
}

export type SharedRevision = {
  recipe: { id: string; name: string; owner: { name: string } };
  number: number;
};

/** What a link's token shows, whoever holds it; undefined where it is revoked or unknown. */
export async function findShared(
  db: Db,
  { token }: { token: string },
): Promise<SharedRevision | undefined> {
  const [shared] = await db
    .select({
      id: recipes.id,
      name: recipes.name,
      owner: people.name,
      number: revisions.number,
    })
    .from(shareLinks)
    .innerJoin(revisions, eq(revisions.id, shareLinks.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(eq(shareLinks.tokenHash, sha256(token)), isNull(shareLinks.revokedAt)));
  if (!shared) return undefined;
  const { id, name, owner, number } = shared;
  return { recipe: { id, name, owner: { name: owner } }, number };
}
