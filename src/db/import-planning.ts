import { inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { asKept, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { type Chosen, type Matches, matchNames, type NameInFile } from "./import-matching.ts";
import { freeMaterialNames } from "./import-names.ts";
import type { AnalysisPlan, ImportPlan, MaterialPlan } from "./import-plan-types.ts";
import { planRecipes, type Resolved } from "./import-recipes.ts";
import type { FileRead, MaterialInFile } from "./import-types.ts";
import { foldName } from "./names.ts";
import { analyses } from "./schema/index.ts";

export type PlanParams = { file: FileRead; matches: Matches; fileName: string; at: Date };

/** What taking a file in would do, line by line, with these matches. Nothing is written. */
export async function planImport(
  db: Db,
  { file, matches, fileName, at }: PlanParams,
): Promise<ImportPlan> {
  const names = await matchNames(db, file, matches);
  const described = new Map(file.materials.map((each) => [foldName(each.name), each]));
  const free = await freeMaterialNames(db);
  const materials = [...names.entries()].map(([key, entry]) =>
    planMaterial(entry, described.get(key) ?? null, (name) => free(name, fileName)),
  );
  const known = await analysesOf(
    db,
    materials.flatMap(({ materialId }) => materialId ?? []),
  );
  const planned = materials.flatMap((material) => planAnalyses(material, known));
  const resolved = new Map<string, Resolved>();
  for (const [index, [key, entry]] of [...names.entries()].entries()) {
    const material = materials[index];
    if (material) resolved.set(key, resolve(entry.chosen, material, at));
  }
  const { recipes, quotes } = await planRecipes(db, { file, resolved, fileName });
  return {
    names: [...names.values()],
    materials,
    analyses: planned,
    recipes,
    quotes,
    refused: file.refused,
    leftBehind: file.leftBehind,
  };
}

function planMaterial(
  { name, chosen }: NameInFile,
  described: MaterialInFile | null,
  freeName: (name: string) => string,
): MaterialPlan {
  const place = described?.place ?? "";
  const start = { place, name, as: name, described, materialId: null, slug: null };
  if (chosen === null) return { ...start, is: "waits" };
  if (chosen.is === "leave out") return { ...start, is: "left out" };
  if (chosen.is === "new") return { ...start, is: "new", as: freeName(name) };
  const { id, slug, name: as } = chosen.possible.material;
  return { ...start, is: "here", as, materialId: id, slug };
}

/** The digests of all analyses of some materials: material id → digests. */
async function analysesOf(db: Db, ids: readonly string[]): Promise<Map<string, Set<string>>> {
  const known = new Map<string, Set<string>>(ids.map((id) => [id, new Set()]));
  if (ids.length === 0) return known;
  const rows = await db
    .select({ id: analyses.materialId, digest: analyses.digest })
    .from(analyses)
    .where(inArray(analyses.materialId, [...ids]));
  for (const { id, digest } of rows) known.get(id)?.add(digest);
  return known;
}

function planAnalyses(
  material: MaterialPlan,
  known: ReadonlyMap<string, Set<string>>,
): AnalysisPlan[] {
  const seen = known.get(material.materialId ?? "") ?? new Set();
  const place = (own: string) => {
    const of = material.described?.place ?? "";
    return own.startsWith("row ") ? own : own === "" ? of : `${of}.${own}`;
  };
  return (material.described?.analyses ?? []).map(({ given, ...own }, index): AnalysisPlan => {
    const start = {
      place: place(own.place),
      material: material.as,
      given,
      materialId: material.materialId,
    };
    const { digest } = asKept(given);
    if (material.is === "waits" || material.is === "left out") return { ...start, is: material.is };
    if (seen.has(digest)) return { ...start, is: "here already" };
    seen.add(digest);
    return {
      ...start,
      is: material.is === "new" && index === 0 ? "in use" : "waits for a manager",
    };
  });
}

/** What a line with the name is pinned to. A new powder is not here yet, so it gets an id for now. */
function resolve(chosen: Chosen | null, material: MaterialPlan, at: Date): Resolved {
  if (chosen === null) return { is: "waits" };
  if (chosen.is === "leave out") return { is: "left out" };
  if (chosen.is === "material") {
    const { id, slug, name, inUse } = chosen.possible.material;
    return { is: "pinned", material: { id, slug, name }, analysis: inUse };
  }
  const id = uuidv7();
  const first = material.described?.analyses[0]?.given;
  const { analysis = null, digest = "" } = first ? asKept(first) : {};
  const pinned: PinnedAnalysis | null =
    first && analysis
      ? {
          id: uuidv7(),
          digest,
          source: first.source,
          measuredOn: first.measuredOn,
          addedAt: at,
          analysis,
        }
      : null;
  return { is: "pinned", material: { id, slug: "", name: material.as }, analysis: pinned };
}
