import { and, desc, eq, inArray, lt, sql } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import { findInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import {
  analyses,
  importedThings,
  imports,
  importWithdrawals,
  materials,
  notes,
  noteTexts,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";
import { listTakenBack } from "./taken-back.ts";
import { listWithdrawn } from "./withdrawn.ts";

export type ImportRow = {
  id: string;
  fileName: string;
  digest: string;
  by: { id: string; name: string };
  at: Date;
  /** How many of each it brought. */
  brought: { recipes: number; materials: number; analyses: number; notes: number };
  takenBack: { why: string; at: Date; by: string } | null;
};

/** The imports of the studio, newest first. */
export async function listImports(
  db: Db,
  { after, limit, id }: { after?: string | undefined; limit: number; id?: string },
): Promise<{ imports: ImportRow[]; next: string | null }> {
  const rows = await db
    .select({
      id: imports.id,
      fileName: imports.fileName,
      digest: imports.digest,
      by: { id: people.id, name: people.name },
      at: imports.at,
      why: importWithdrawals.why,
      backAt: importWithdrawals.at,
      backBy: sql<
        string | null
      >`(select p.name from people p where p.id = ${importWithdrawals.by})`,
    })
    .from(imports)
    .innerJoin(people, eq(people.id, imports.by))
    .leftJoin(importWithdrawals, eq(importWithdrawals.importId, imports.id))
    .where(
      and(
        after === undefined ? undefined : lt(imports.id, after),
        id === undefined ? undefined : eq(imports.id, id),
      ),
    )
    .orderBy(desc(imports.id))
    .limit(limit + 1);
  const page = rows.slice(0, limit);
  const counts = await countBrought(
    db,
    page.map((row) => row.id),
  );
  return {
    imports: page.map(({ why, backAt, backBy, ...row }) => ({
      ...row,
      brought: counts(row.id),
      takenBack:
        why === null || backAt === null ? null : { why, at: backAt, by: backBy ?? "somebody" },
    })),
    next: rows.length > limit ? (page.at(-1)?.id ?? null) : null,
  };
}

async function countBrought(db: Db, ids: readonly string[]) {
  const rows =
    ids.length === 0
      ? []
      : await db
          .select({
            id: importedThings.importId,
            noun: importedThings.noun,
            count: sql<number>`count(*)::int`,
          })
          .from(importedThings)
          .where(inArray(importedThings.importId, [...ids]))
          .groupBy(importedThings.importId, importedThings.noun);
  return (id: string): ImportRow["brought"] => {
    const count = (noun: string) =>
      rows.find((row) => row.id === id && row.noun === noun)?.count ?? 0;
    return {
      recipes: count("recipe"),
      materials: count("material"),
      analyses: count("analysis"),
      notes: count("note"),
    };
  };
}

/** A recipe that an import brought, with what others have made of it since. */
export type BroughtRecipe = {
  id: string;
  slug: string;
  name: string;
  head: number;
  withdrawn: boolean;
  since: ("revised" | "forked" | "in a bucket")[];
};

export type FoundImport = ImportRow & {
  recipes: BroughtRecipe[];
  materials: { id: string; slug: string; name: string; offered: boolean }[];
  analyses: { id: string; slug: string; material: string; source: string; inUse: boolean }[];
  notes: { id: string; slug: string; recipe: string; text: string | null }[];
};

/** An import with all that it brought. */
export async function findImport(db: Db, id: string): Promise<FoundImport | undefined> {
  if (!isUuid(id)) return undefined;
  const [row] = (await listImports(db, { id, limit: 1 })).imports;
  if (!row) return undefined;
  return {
    ...row,
    recipes: await listBroughtRecipes(db, id),
    materials: await listBroughtMaterials(db, id),
    analyses: await listBroughtAnalyses(db, id),
    notes: await listQuoted(db, id),
  };
}

/** The recipes that an import brought, in the order of their names. */
export async function listBroughtRecipes(db: Db, importId: string): Promise<BroughtRecipe[]> {
  const rows = await db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      head: recipes.head,
      forked: sql<boolean>`exists (select 1 from recipes f join revisions r on r.id = f.forked_from
        where r.recipe_id = ${recipes.id})`,
      inBucket: sql<boolean>`exists (select 1 from buckets b join revisions r on r.id = b.revision_id
        where r.recipe_id = ${recipes.id})`,
    })
    .from(importedThings)
    .innerJoin(recipes, eq(recipes.id, importedThings.thingId))
    .where(and(eq(importedThings.importId, importId), eq(importedThings.noun, "recipe")))
    .orderBy(recipes.nameKey);
  const withdrawn = await listWithdrawn(
    db,
    rows.map((row) => row.id),
  );
  return rows.map(({ forked, inBucket, ...row }) => ({
    ...row,
    withdrawn: withdrawn.has(row.id),
    since: [
      ...(row.head > 1 ? (["revised"] as const) : []),
      ...(forked ? (["forked"] as const) : []),
      ...(inBucket ? (["in a bucket"] as const) : []),
    ],
  }));
}

async function listBroughtMaterials(db: Db, importId: string) {
  const rows = await db
    .select({ id: materials.id, slug: materials.slug, name: materials.name })
    .from(importedThings)
    .innerJoin(materials, eq(materials.id, importedThings.thingId))
    .where(and(eq(importedThings.importId, importId), eq(importedThings.noun, "material")))
    .orderBy(materials.nameKey);
  const gone = await listTakenBack(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => ({ ...row, offered: !gone.has(row.id) }));
}

async function listBroughtAnalyses(db: Db, importId: string) {
  const rows = await db
    .select({
      id: analyses.id,
      materialId: materials.id,
      slug: materials.slug,
      material: materials.name,
      source: analyses.source,
    })
    .from(importedThings)
    .innerJoin(analyses, eq(analyses.id, importedThings.thingId))
    .innerJoin(materials, eq(materials.id, analyses.materialId))
    .where(and(eq(importedThings.importId, importId), eq(importedThings.noun, "analysis")))
    .orderBy(materials.nameKey, analyses.id);
  const used = await findInUse(
    db,
    rows.map(({ materialId }) => materialId),
  );
  return rows.map(({ materialId, ...row }) => ({ ...row, inUse: used.get(materialId) === row.id }));
}

const listQuoted = (db: Db, importId: string) =>
  db
    .select({ id: notes.id, slug: recipes.slug, recipe: recipes.name, text: noteTexts.text })
    .from(importedThings)
    .innerJoin(notes, eq(notes.id, importedThings.thingId))
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(importedThings.importId, importId), eq(importedThings.noun, "note")))
    .orderBy(recipes.nameKey, notes.id);
