import { asc, desc, inArray, type SQL } from "drizzle-orm";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { analysesInUse, discontinuations, materials } from "./schema/index.ts";

/** A material as a line of a recipe needs it; `inUse` is null where it has no analysis. */
export type MaterialOnShelf = {
  id: string;
  slug: string;
  name: string;
  kind: string;
  hazards: string[];
  stillSold: boolean;
  inUse: PinnedAnalysis | null;
};

/** Materials by their slugs; a slug that names none has no entry. */
export async function findMaterialsBySlug(
  db: Db,
  slugs: readonly string[],
): Promise<Map<string, MaterialOnShelf>> {
  if (slugs.length === 0) return new Map();
  const found = await readMaterials(db, inArray(materials.slug, [...new Set(slugs)]));
  return new Map(found.map((material) => [material.slug, material]));
}

/** Materials by their ids; an id that is none has no entry. */
export async function findMaterialsById(
  db: Db,
  ids: readonly string[],
): Promise<Map<string, MaterialOnShelf>> {
  if (ids.length === 0) return new Map();
  const found = await readMaterials(db, inArray(materials.id, [...new Set(ids)]));
  return new Map(found.map((material) => [material.id, material]));
}

/** The main name of every material, in order. */
export async function listMaterialNames(db: Db): Promise<string[]> {
  const rows = await db
    .select({ name: materials.name })
    .from(materials)
    .orderBy(asc(materials.nameKey));
  return rows.map(({ name }) => name);
}

async function readMaterials(db: Db, which: SQL): Promise<MaterialOnShelf[]> {
  const rows = await db
    .select({
      id: materials.id,
      slug: materials.slug,
      name: materials.name,
      kind: materials.kind,
      hazards: materials.hazards,
    })
    .from(materials)
    .where(which);
  const ids = rows.map(({ id }) => id);
  const [inUse, sold] = [await findInUse(db, ids), await findStillSold(db, ids)];
  const pinned = await findAnalyses(db, [...inUse.values()]);
  return rows.map((row) => ({
    ...row,
    stillSold: sold.get(row.id) ?? true,
    inUse: pinned.get(inUse.get(row.id) ?? "") ?? null,
  }));
}

/** The analysis in use of each material that has one: material id → analysis id. */
export async function findInUse(db: Db, ids: readonly string[]): Promise<Map<string, string>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .selectDistinctOn([analysesInUse.materialId], {
      materialId: analysesInUse.materialId,
      analysisId: analysesInUse.analysisId,
    })
    .from(analysesInUse)
    .where(inArray(analysesInUse.materialId, [...ids]))
    .orderBy(analysesInUse.materialId, desc(analysesInUse.id));
  return new Map(rows.map((row) => [row.materialId, row.analysisId]));
}

/** Whether each material is still sold, where that was ever in question. */
async function findStillSold(db: Db, ids: readonly string[]): Promise<Map<string, boolean>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .selectDistinctOn([discontinuations.materialId], {
      materialId: discontinuations.materialId,
      stillSold: discontinuations.stillSold,
    })
    .from(discontinuations)
    .where(inArray(discontinuations.materialId, [...ids]))
    .orderBy(discontinuations.materialId, desc(discontinuations.id));
  return new Map(rows.map((row) => [row.materialId, row.stillSold]));
}
