import { asc, eq, inArray, type SQL } from "drizzle-orm";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import { findInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import { findStillSold } from "./discontinuations.ts";
import { materials, people } from "./schema/index.ts";
import { stillOffered } from "./taken-back.ts";

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
  const possible = [...new Set(slugs.filter(isSlug))];
  if (possible.length === 0) return new Map();
  const found = await readMaterials(db, inArray(materials.slug, possible));
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

const isSlug = (text: string): boolean => /^[a-z0-9-]{1,80}$/.test(text);

/** A material as its own page shows it, beside its names, analyses and uses. */
export type FoundMaterial = MaterialOnShelf & {
  nameKey: string;
  region: string;
  about: string;
  addedAt: Date;
  addedBy: { id: string; name: string };
};

/** A material by its slug. */
export async function findMaterial(db: Db, slug: string): Promise<FoundMaterial | undefined> {
  const onShelf = (await findMaterialsBySlug(db, [slug])).get(slug);
  if (!onShelf) return undefined;
  const { nameKey, region, about, addedAt, addedBy } = materials;
  const [row] = await db
    .select({ nameKey, region, about, addedAt, addedBy: { id: addedBy, name: people.name } })
    .from(materials)
    .innerJoin(people, eq(people.id, addedBy))
    .where(eq(materials.id, onShelf.id));
  return row && { ...onShelf, ...row };
}

/** The main name of every material that is offered, in order. */
export async function listMaterialNames(db: Db): Promise<string[]> {
  const rows = await db
    .select({ name: materials.name })
    .from(materials)
    .where(stillOffered(db, materials.id))
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
