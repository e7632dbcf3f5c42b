import { and, asc, eq, inArray, ne } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName } from "./names.ts";
import { materialNames, materials } from "./schema/index.ts";

/** What a powder is called elsewhere. `caution` says which to buy under this word and which not. */
export type NameElsewhere = { id: string; name: string; region: string; caution: string };

/** The names of materials elsewhere, in the order of regions: material id → names. */
export async function listNames(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, NameElsewhere[]>> {
  const names = new Map<string, NameElsewhere[]>(materialIds.map((id) => [id, []]));
  if (materialIds.length === 0) return names;
  const { id, materialId, name, region, caution, nameKey } = materialNames;
  const rows = await db
    .select({ id, materialId, name, region, caution, nameKey })
    .from(materialNames)
    .where(inArray(materialId, [...materialIds]))
    .orderBy(asc(nameKey), asc(id));
  rows.sort((a, b) => order(foldName(a.region), foldName(b.region)));
  for (const row of rows)
    names.get(row.materialId)?.push({
      id: row.id,
      name: row.name,
      region: row.region,
      caution: row.caution,
    });
  return names;
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Another powder that goes by one of this one's words: `region` is null where it is its main name. */
export type LookAlike = {
  word: string;
  slug: string;
  name: string;
  region: string | null;
  caution: string;
};

/** The powders that could be bought or weighed by mistake, since they share a word with this one. */
export async function listLookAlikes(
  db: Db,
  { materialId, words }: { materialId: string; words: readonly string[] },
): Promise<LookAlike[]> {
  const keys = [...new Set(words.map(foldName))];
  const { slug, name, nameKey } = materials;
  const byMainName = await db
    .select({ word: name, slug, name })
    .from(materials)
    .where(and(inArray(nameKey, keys), ne(materials.id, materialId)))
    .orderBy(asc(nameKey));
  const elsewhere = await db
    .select({
      word: materialNames.name,
      slug,
      name,
      region: materialNames.region,
      caution: materialNames.caution,
    })
    .from(materialNames)
    .innerJoin(materials, eq(materials.id, materialNames.materialId))
    .where(and(inArray(materialNames.nameKey, keys), ne(materials.id, materialId)))
    .orderBy(asc(nameKey), asc(materialNames.id));
  return [...byMainName.map((row) => ({ ...row, region: null, caution: "" })), ...elsewhere];
}

type Naming = Act & {
  by: string;
  materialId: string;
  name: string;
  region: string;
  caution: string;
};

export type NewName = { kind: "added"; id: string } | { kind: "known-already" };

/** Adds what a powder is called in a region; `known-already` where it is called that there. */
export async function addName(
  db: Db,
  { materialId, name, region, caution, by, at }: Naming,
): Promise<NewName> {
  const nameKey = foldName(name);
  return db.transaction(async (tx) => {
    const same = await tx
      .select({ region: materialNames.region })
      .from(materialNames)
      .where(and(eq(materialNames.materialId, materialId), eq(materialNames.nameKey, nameKey)));
    if (same.some((known) => foldName(known.region) === foldName(region)))
      return { kind: "known-already" };
    const id = uuidv7();
    const row = { id, materialId, name, nameKey, region, caution, addedBy: by, addedAt: at };
    await tx.insert(materialNames).values(row);
    const detail = { name: id };
    const kind = "name added";
    await appendEvent(tx, { by, at }, { kind, subject: "material", subjectId: materialId, detail });
    return { kind: "added", id };
  });
}

export type NameRemoved = { kind: "removed" } | { kind: "no-name" };

/** Takes a name off a material: nothing on record refers to it. */
export async function removeName(
  db: Db,
  { materialId, nameId, by, at }: Act & { materialId: string; nameId: string },
): Promise<NameRemoved> {
  return db.transaction(async (tx) => {
    const [removed] = await tx
      .delete(materialNames)
      .where(and(eq(materialNames.id, nameId), eq(materialNames.materialId, materialId)))
      .returning({ id: materialNames.id });
    if (!removed) return { kind: "no-name" };
    const detail = { name: nameId };
    const kind = "name removed";
    await appendEvent(tx, { by, at }, { kind, subject: "material", subjectId: materialId, detail });
    return { kind: "removed" };
  });
}
