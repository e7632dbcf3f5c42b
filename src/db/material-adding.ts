import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { type GivenAnalysis, keepAnalysis } from "./analyses.ts";
import { keepInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName, slugsFor } from "./names.ts";
import { materials } from "./schema/index.ts";

export type NewMaterial = {
  name: string;
  region: string;
  kind: string;
  about: string;
  hazards: readonly string[];
  given: GivenAnalysis | null;
};

export type Added =
  | { kind: "added"; id: string; slug: string; analysis: { id: string; digest: string } | null }
  | { kind: "name-taken"; slug: string };

/** Addresses below /materials that are pages of their own. */
const reserved: ReadonlySet<string> = new Set(["new"]);

/**
 * Puts a material on the shelf. What analysis comes with it is in use at once, since nothing
 * depends on it yet. `name-taken` where a material has that main name, with its slug.
 */
export async function addMaterial(
  db: Db,
  { given, by, at, ...material }: NewMaterial & Act & { by: string },
): Promise<Added> {
  return db.transaction(async (tx) => {
    const taken = await findByName(tx, material.name);
    if (taken) return { kind: "name-taken", slug: taken };
    const id = uuidv7();
    const slug = await takeSlug(tx, { ...material, id, by, at });
    if (!slug) {
      const first = await findByName(tx, material.name);
      return { kind: "name-taken", slug: first ?? "" };
    }
    const analysis = given ? await keepAnalysis(tx, { materialId: id, given, by, at }) : null;
    if (analysis) {
      await keepInUse(tx, { materialId: id, analysisId: analysis.id, why: "", by, at });
    }
    const detail = { analysis: analysis?.id ?? null, digest: analysis?.digest ?? null };
    const kind = "material added";
    await appendEvent(tx, { by, at }, { kind, subject: "material", subjectId: id, detail });
    return { kind: "added", id, slug, analysis };
  });
}

async function findByName(tx: Db, name: string): Promise<string | undefined> {
  const [found] = await tx
    .select({ slug: materials.slug })
    .from(materials)
    .where(eq(materials.nameKey, foldName(name)));
  return found?.slug;
}

type Shelved = Omit<NewMaterial, "given"> & Act & { id: string; by: string };

/** The slug that the material got, or undefined where somebody took the name at the same moment. */
async function takeSlug(
  tx: Db,
  { id, name, hazards, by, at, ...rest }: Shelved,
): Promise<string | undefined> {
  for (const slug of slugsFor(name)) {
    if (reserved.has(slug)) continue;
    const nameKey = foldName(name);
    const [made] = await tx
      .insert(materials)
      .values({ id, slug, name, nameKey, hazards: [...hazards], addedBy: by, addedAt: at, ...rest })
      .onConflictDoNothing()
      .returning({ slug: materials.slug });
    if (made) return made.slug;
  }
  return undefined;
}
