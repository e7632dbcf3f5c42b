import { and, asc, eq, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { people, recipes, revisionLines, revisions } from "./schema/index.ts";
import { listWithdrawn } from "./withdrawn.ts";

/** A recipe whose head has a material in a line. */
export type MaterialUse = {
  slug: string;
  name: string;
  owner: string;
  number: number;
  withdrawn: boolean;
};

/** `more` where there are further ones than were asked for. */
export type MaterialUses = { recipes: MaterialUse[]; more: boolean };

type Asked = { materialId: string; reader: Reader; limit: number };

/** The recipes whose heads use a material, by name, as far as the reader may know of them. */
export const listUses = (db: Db, asked: Asked): Promise<MaterialUses> =>
  readUses(db, asked, undefined);

/** Those of them that are pinned to another analysis of the material, or to none. */
export const listUsesPinnedElsewhere = (
  db: Db,
  { analysisId, ...asked }: Asked & { analysisId: string },
): Promise<MaterialUses> =>
  readUses(db, asked, sql`${revisionLines.analysisId} is distinct from ${analysisId}`);

async function readUses(
  db: Db,
  { materialId, reader, limit }: Asked,
  which: SQL | undefined,
): Promise<MaterialUses> {
  const { id, slug, name, nameKey, head } = recipes;
  const rows = await db
    .selectDistinct({ id, slug, name, nameKey, owner: people.name, number: revisions.number })
    .from(revisionLines)
    .innerJoin(revisions, eq(revisions.id, revisionLines.revisionId))
    .innerJoin(recipes, and(eq(id, revisions.recipeId), eq(head, revisions.number)))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(eq(revisionLines.materialId, materialId), which, readableBy(reader)))
    .orderBy(asc(nameKey), asc(id))
    .limit(limit + 1);
  const listed = rows.slice(0, limit);
  const withdrawn = await listWithdrawn(
    db,
    listed.map((row) => row.id),
  );
  return {
    recipes: listed.map(({ id: recipeId, nameKey: _, ...row }) => ({
      ...row,
      withdrawn: withdrawn.has(recipeId),
    })),
    more: rows.length > limit,
  };
}
