import type { Analysis } from "../chem/analysis.ts";
import { type ChemistryLine, faultsOfRequest } from "../chem/chemistry.ts";
import { microsPerGram, molesOfPowder, packPrice, wantedOf } from "../chem/shelf-plan-problem.ts";
import type { PlanPowder, PlanTarget } from "../chem/shelf-plan-types.ts";
import type { Db } from "../db/client.ts";
import { doubtOf, type LineReading, readLines } from "../db/line-reading.ts";
import type { MaterialOnShelf } from "../db/materials.ts";
import { findPlanPrices } from "../db/plan-materials.ts";
import { findPlanRecipes, listPlanRecipes, type PlanRecipe } from "../db/plan-recipes.ts";
import type { Reader } from "../db/recipes.ts";
import type { Fault } from "../wire/problems.tsx";
import type { AskedMaterial, AskedRecipe } from "../wire/shelf-plan-body.ts";

/** A material as it was asked for: from the shelf where it has an `id`. */
export type ReadMaterial = {
  id: string | undefined;
  label: string;
  name: string;
  analysis: Analysis | null;
};

/** A recipe that a shelf is planned for; the key of a line is its material's label. */
export type ReadRecipe = { label: string; name: string; lines: readonly ChemistryLine[] };

export type RecipesRead =
  | { kind: "read"; recipes: ReadRecipe[]; faults: Fault[] }
  | { kind: "not-found" };

export const ofShelf = ({ id, slug, name, inUse }: MaterialOnShelf): ReadMaterial => ({
  id,
  label: slug,
  name,
  analysis: inUse?.analysis ?? null,
});

/** The materials of a request, each once and each with an analysis, or what is wrong at its place. */
export async function readMaterials(db: Db, asked: readonly AskedMaterial[], path: string) {
  const readings = await readLines(db, wordsOf(asked));
  const byWord = new Map(readings.map((reading) => [reading.material, reading]));
  const faults: Fault[] = [];
  const seen = new Set<string>();
  const materials = asked.flatMap((material, row) => {
    const read = readOne(material, byWord);
    const at = `${path}.${row}`;
    if ("says" in read) faults.push({ path: at, says: read.says });
    else if (!read.analysis) faults.push({ path: at, says: noAnalysis(read.name) });
    else if (seen.has(read.label))
      faults.push({ path: at, says: `${read.name} is in the list twice.` });
    else {
      seen.add(read.label);
      return [read];
    }
    return [];
  });
  return { materials, faults };
}

const noAnalysis = (name: string): string =>
  `${name} has no analysis, so no base can be worked out from it. It can only be an addition.`;

/** The recipes of a request, those of the library through the reader's scope. */
export async function readRecipes(
  db: Db,
  asked: readonly AskedRecipe[],
  reader: Reader,
): Promise<RecipesRead> {
  const slugs = asked.filter((each) => typeof each === "string");
  const found = await findPlanRecipes(db, { slugs, reader });
  if (slugs.some((slug) => !found.has(slug))) return { kind: "not-found" };
  const inline = asked.flatMap((each) => (typeof each === "string" ? [] : each.lines));
  const readings = await readLines(db, wordsOf(inline.map(({ material }) => material)));
  const byWord = new Map(readings.map((reading) => [reading.material, reading]));
  const faults: Fault[] = [];
  const recipes = asked.flatMap((each, row): ReadRecipe[] => {
    if (typeof each === "string") return [recipeOf(found.get(each) as PlanRecipe)];
    const lines = each.lines.flatMap((typed, line): ChemistryLine[] => {
      const read = readOne(typed.material, byWord);
      if ("says" in read) {
        faults.push({ path: `recipes.${row}.lines.${line}.material`, says: read.says });
        return [];
      }
      const { part, amount } = typed;
      return [{ key: read.label, name: read.name, part, amount, analysis: read.analysis }];
    });
    if (lines.length === each.lines.length)
      faults.push(
        ...faultsOfRequest({ lines }).map((fault) => ({
          ...fault,
          path: `recipes.${row}.${fault.path}`,
        })),
      );
    return [{ label: each.name, name: each.name, lines }];
  });
  return { kind: "read", recipes, faults };
}

/** The first recipes by name that the reader may see. */
export const readAllRecipes = async (
  db: Db,
  reader: Reader,
  limit: number,
): Promise<ReadRecipe[]> => (await listPlanRecipes(db, { reader, limit })).map(recipeOf);

const recipeOf = ({ slug, name, lines }: PlanRecipe): ReadRecipe => ({
  label: slug,
  name,
  lines: lines.map(({ part, amount, material, analysis }) => ({
    key: material.slug,
    name: material.name,
    part,
    amount,
    analysis: analysis?.analysis ?? null,
  })),
});

export const targetsOf = (recipes: readonly ReadRecipe[]): PlanTarget[] =>
  recipes.map(({ label, name, lines }) => ({ label, name, wanted: wantedOf(lines) }));

/**
 * The materials as the search knows them, with what each was last bought for in the currency that was
 * asked for, or last paid in.
 */
export async function powdersOf(
  db: Db,
  materials: readonly ReadMaterial[],
  asked?: string | undefined,
) {
  const ids = materials.flatMap(({ id }) => id ?? []);
  const { prices, currency: last } = await findPlanPrices(db, ids);
  const currency = asked ?? last;
  const powders = materials.flatMap(({ id, label, name, analysis }): PlanPowder[] => {
    const price = id === undefined ? null : prices.get(id);
    if (!analysis) return [];
    return [
      {
        label,
        name,
        moles: molesOfPowder(analysis),
        microsPerGram: microsPerGram(price, currency),
        pack: packPrice(price, currency),
      },
    ];
  });
  return { powders, prices, currency };
}

const wordsOf = (asked: readonly AskedMaterial[]) =>
  asked.flatMap((material) => (typeof material === "string" ? [{ material }] : []));

type Words = ReadonlyMap<string, LineReading<{ material: string }>>;

function readOne(asked: AskedMaterial, byWord: Words): ReadMaterial | { says: string } {
  if (typeof asked !== "string")
    return { id: undefined, label: asked.name, name: asked.name, analysis: asked.analysis };
  const reading = byWord.get(asked);
  if (reading?.match.kind === "sure") return ofShelf(reading.match.material);
  return { says: (reading && doubtOf(reading)) ?? "This is needed." };
}
