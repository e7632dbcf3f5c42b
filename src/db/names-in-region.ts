import { asc, eq, inArray, ne } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type LookAlike, listLookAlikes, listNames } from "./material-names.ts";
import { foldName } from "./names.ts";
import { prepared } from "./prepared.ts";
import { materialNames, materials } from "./schema/index.ts";

/** What a powder is called in a region: the first of its names there, and its others in `also`. */
export type NameThere = { name: string; caution: string; also: string[]; lookAlikes: LookAlike[] };

/** The regions that powders have names in, each once, in order. */
export async function listRegions(db: Db): Promise<string[]> {
  const elsewhere = await db
    .selectDistinct({ region: materialNames.region })
    .from(materialNames)
    .orderBy(asc(materialNames.region));
  const own = await db
    .selectDistinct({ region: materials.region })
    .from(materials)
    .where(ne(materials.region, ""))
    .orderBy(asc(materials.region));
  const byKey = new Map<string, string>();
  for (const { region } of [...elsewhere, ...own]) {
    const key = foldName(region);
    if (!byKey.has(key)) byKey.set(key, region);
  }
  return [...byKey].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, region]) => region);
}

/** What materials are called in a region, by id; null where no name there is on record. */
export async function findNamesIn(
  db: Db,
  { region, materialIds }: { region: string; materialIds: readonly string[] },
): Promise<Map<string, NameThere | null>> {
  const ids = [...new Set(materialIds)];
  const found = new Map<string, NameThere | null>(ids.map((id) => [id, null]));
  if (ids.length === 0) return found;
  const there = (of: string) => foldName(of) === foldName(region);
  const names = await listNames(db, ids);
  const own = await db
    .select({ id: materials.id, name: materials.name, region: materials.region })
    .from(materials)
    .where(inArray(materials.id, ids));
  for (const material of own) {
    const all = [
      ...(there(material.region) ? [{ name: material.name, caution: "" }] : []),
      ...(names.get(material.id) ?? []).filter((each) => there(each.region)),
    ];
    const [first, ...others] = all;
    if (!first) continue;
    const words = all.map(({ name }) => name);
    found.set(material.id, {
      ...{ name: first.name, caution: first.caution },
      also: others.map(({ name }) => name),
      lookAlikes: await listLookAlikes(db, { materialId: material.id, words }),
    });
  }
  return found;
}

/** What a powder is called in a region, and in words which others go by that name somewhere. */
export type CalledThere = { name: string; caution: string; lookAlikes: string[] };

const calledElsewhere = prepared((db) =>
  db
    .select({
      slug: materials.slug,
      own: materials.name,
      ownRegion: materials.region,
      name: materialNames.name,
      nameKey: materialNames.nameKey,
      region: materialNames.region,
      caution: materialNames.caution,
    })
    .from(materialNames)
    .innerJoin(materials, eq(materials.id, materialNames.materialId))
    .orderBy(asc(materialNames.nameKey), asc(materialNames.id))
    .prepare("called_elsewhere"),
);

const calledHere = prepared((db) =>
  db
    .select({ slug: materials.slug, own: materials.name, nameKey: materials.nameKey })
    .from(materials)
    .innerJoin(materialNames, eq(materialNames.nameKey, materials.nameKey))
    .prepare("called_here"),
);

/**
 * The powders that are called otherwise in a region, by the studio's own names, for a whole page at
 * once. A powder whose own name is of that region keeps it.
 */
export async function listCalledIn(db: Db, region: string): Promise<Map<string, CalledThere>> {
  const elsewhere = await calledElsewhere(db).execute();
  const here = await calledHere(db).execute();
  const key = foldName(region);
  const called = new Map<string, CalledThere>();
  for (const { slug, own, ownRegion, name, nameKey, region: there, caution } of elsewhere) {
    const isOwn = foldName(ownRegion) === key || foldName(own) === nameKey;
    if (foldName(there) !== key || isOwn || called.has(own)) continue;
    const others = [...here, ...elsewhere].filter(
      (other) => other.nameKey === nameKey && other.slug !== slug,
    );
    const lookAlikes = [...new Set(others.map((other) => other.own))];
    called.set(own, { name, caution, lookAlikes });
  }
  return called;
}
