import { z } from "zod";
import type { FileRead, RecipeInFile, RefusedInFile } from "../db/import-types.ts";
import { foldName } from "../db/names.ts";
import { check } from "../wire/body.ts";
import type { Fault } from "../wire/problems.tsx";
import { importFrame, materialInFile, mostRecipes, recipeInFile } from "./import-body.ts";

export type ReadOutcome = { kind: "read"; file: FileRead } | { kind: "faulty"; faults: Fault[] };

const bareList = z.array(z.unknown()).max(mostRecipes);

/** Our own JSON, `{format, version, materials, recipes}`, or a bare list of recipes. */
export function readImportJson(value: unknown): ReadOutcome {
  const bare = Array.isArray(value);
  const frame = bare ? check(bareList, value) : check(importFrame, value);
  if (frame.kind === "refused") return { kind: "faulty", faults: frame.faults };
  const given = Array.isArray(frame.value) ? { materials: [], recipes: frame.value } : frame.value;
  const placed = (entries: readonly unknown[], prefix: string) =>
    entries.map((entry, index) => ({ place: `${prefix}${index}`, entry }));
  return readEntries({
    kind: "json",
    materials: placed(given.materials, "materials."),
    recipes: placed(given.recipes, bare ? "" : "recipes."),
    leftBehind: [],
  });
}

type Entries = Pick<FileRead, "kind" | "leftBehind"> & {
  materials: readonly Entry[];
  recipes: readonly (Entry & { quotes?: RecipeInFile["quotes"] })[];
};

/** Entries of the shape of our JSON, wherever they came from, each checked as a stranger's. */
export function readEntries({ kind, leftBehind, ...given }: Entries): ReadOutcome {
  const refused: RefusedInFile[] = [];
  const materials = eachOf("material", given.materials, materialInFile, refused);
  const quotesOf = new Map(given.recipes.map(({ place, quotes }) => [place, quotes ?? []]));
  const recipes = eachOf("recipe", given.recipes, recipeInFile, refused).map((recipe) => ({
    ...recipe,
    quotes: quotesOf.get(recipe.place) ?? [],
  }));
  const firstOf = new Map<string, string>();
  const once = materials.filter(({ name, place }) => {
    const first = firstOf.get(foldName(name));
    if (first === undefined) {
      firstOf.set(foldName(name), place);
      return true;
    }
    const says = `“${name}” stands twice in this file, at ${first} before.`;
    refused.push({ noun: "material", place, name, faults: [{ path: `${place}.name`, says }] });
    return false;
  });
  return { kind: "read", file: { kind, materials: once, recipes, refused, leftBehind } };
}

type Entry = { place: string; entry: unknown };

/** Each entry by itself: what is wrong with one does not hide the others. */
function eachOf<Read extends object>(
  noun: "material" | "recipe",
  entries: readonly Entry[],
  schema: z.ZodType<Read>,
  refused: RefusedInFile[],
): (Read & { place: string })[] {
  return entries.flatMap(({ place, entry }) => {
    const read = check(schema, entry);
    if (read.kind === "read") return [{ ...read.value, place }];
    const faults = read.faults.map(({ path, says }) => ({
      path: path === "" ? place : `${place}.${path}`,
      says,
    }));
    const name = typeof read.typed.name === "string" ? read.typed.name.slice(0, 80) : "";
    refused.push({ noun, place, name, faults });
    return [];
  });
}
