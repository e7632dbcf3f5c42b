import { asc } from "drizzle-orm";
import type { Db } from "./client.ts";
import { listNames, type NameElsewhere } from "./material-names.ts";
import { foldName } from "./names.ts";
import { materials } from "./schema/index.ts";

/** Another powder that goes by one of these words: `region` is "" where it is the studio's own. */
export type OtherPowder = {
  word: string;
  slug: string;
  name: string;
  region: string;
  caution: string;
};

/** A powder of the studio, what it is called where, and what shares one of those words with it. */
export type GlossaryEntry = {
  slug: string;
  name: string;
  region: string;
  names: NameElsewhere[];
  lookAlikes: OtherPowder[];
};

/**
 * The powders of the studio by their names, in order. With a region, those that have a name there,
 * with these names alone.
 */
export async function listGlossary(
  db: Db,
  { region }: { region?: string | undefined },
): Promise<GlossaryEntry[]> {
  const { id, slug, name, region: own, nameKey } = materials;
  const rows = await db
    .select({ id, slug, name, region: own })
    .from(materials)
    .orderBy(asc(nameKey), asc(id));
  const names = await listNames(
    db,
    rows.map((row) => row.id),
  );
  const called = rows.flatMap((row) => [
    { id: row.id, slug: row.slug, name: row.name, word: row.name, region: "", caution: "" },
    ...(names.get(row.id) ?? []).map((each) => ({
      ...{ id: row.id, slug: row.slug, name: row.name, word: each.name },
      ...{ region: each.region, caution: each.caution },
    })),
  ]);
  const byWord = new Map<string, typeof called>();
  for (const each of called) {
    const key = foldName(each.word);
    byWord.set(key, [...(byWord.get(key) ?? []), each]);
  }
  const there = (of: string) => region === undefined || foldName(of) === foldName(region);
  return rows.flatMap((row) => {
    const elsewhere = (names.get(row.id) ?? []).filter((each) => there(each.region));
    if (region !== undefined && elsewhere.length === 0 && !there(row.region)) return [];
    const words = [row.name, ...elsewhere.map((each) => each.name)].map(foldName);
    const lookAlikes = [...new Set(words)]
      .flatMap((word) => byWord.get(word) ?? [])
      .filter((other) => other.id !== row.id)
      .map(({ id: _, ...other }) => other);
    const entry = { slug: row.slug, name: row.name, region: row.region };
    return [{ ...entry, names: elsewhere, lookAlikes }];
  });
}
