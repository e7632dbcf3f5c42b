import { and, asc, eq, gt, inArray, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { type FoundRevision, findRevisions } from "./revisions.ts";
import { people, recipes, revisionLines, revisions, withdrawals } from "./schema/index.ts";

/** A recipe that a material is in, by its head. */
export type HeadWith = {
  recipe: { id: string; slug: string; name: string; owner: { id: string; name: string } };
  head: FoundRevision;
};

type Asked = {
  materialId: string;
  /** Only where a line of it is pinned to another analysis than this, or to none. */
  unlessPinnedTo?: string | undefined;
  /** Only these. */
  slugs?: readonly string[] | undefined;
  reader: Reader;
};

/**
 * Recipes that nobody took back and whose heads have a material in a line, by name, as far as the
 * reader may know of them.
 *
 * @param after the folded name of the last recipe of the page before, as `next` gave it.
 */
export async function listHeadsWith(
  db: Db,
  { after, limit, ...asked }: Asked & { after?: string | undefined; limit: number },
): Promise<{ items: HeadWith[]; next: string | null }> {
  const { id, slug, name, nameKey } = recipes;
  const rows = await db
    .select({
      nameKey,
      revisionId: revisions.id,
      recipe: { id, slug, name },
      owner: { id: people.id, name: people.name },
    })
    .from(recipes)
    .innerJoin(revisions, and(eq(revisions.recipeId, id), eq(revisions.number, recipes.head)))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(and(whichOf(db, asked), after === undefined ? undefined : gt(nameKey, after)))
    .orderBy(asc(nameKey))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const found = await findRevisions(
    db,
    page.map(({ revisionId }) => revisionId),
  );
  const heads = new Map(found.map((head) => [head.id, head]));
  const items = page.flatMap(({ recipe, owner, revisionId }) => {
    const head = heads.get(revisionId);
    return head ? [{ recipe: { ...recipe, owner }, head }] : [];
  });
  return { items, next: rows.length > limit ? (page.at(-1)?.nameKey ?? null) : null };
}

function whichOf(db: Db, { materialId, unlessPinnedTo, slugs, reader }: Asked): SQL | undefined {
  const lines = db
    .select({ revisionId: revisionLines.revisionId })
    .from(revisionLines)
    .where(
      and(
        eq(revisionLines.materialId, materialId),
        unlessPinnedTo === undefined
          ? undefined
          : sql`${revisionLines.analysisId} is distinct from ${unlessPinnedTo}`,
      ),
    );
  const newest = sql`(select ${withdrawals.withdrawn} from ${withdrawals} where ${withdrawals.recipeId} = ${recipes.id} order by ${withdrawals.id} desc limit 1)`;
  return and(
    inArray(revisions.id, lines),
    sql`coalesce(${newest}, false) = false`,
    slugs && inArray(recipes.slug, [...slugs]),
    readableBy(reader),
  );
}
