import { z } from "zod";
import type { FileRead, RefusedInFile } from "../db/import-types.ts";
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
  const refused: RefusedInFile[] = [];
  const materials = eachOf("material", given.materials, "materials.", materialInFile, refused);
  const recipes = eachOf("recipe", given.recipes, bare ? "" : "recipes.", recipeInFile, refused);
  const once = materials.filter((material) => {
    const first = materials.find(({ name }) => foldName(name) === foldName(material.name));
    if (first === material) return true;
    const says = `“${material.name}” stands twice in this file, at ${first?.place} before.`;
    const { place, name } = material;
    refused.push({ noun: "material", place, name, faults: [{ path: `${place}.name`, says }] });
    return false;
  });
  return {
    kind: "read",
    file: { kind: "json", materials: once, recipes, refused, leftBehind: [] },
  };
}

/** Each entry by itself: what is wrong with one does not hide the others. */
function eachOf<Read extends object>(
  noun: "material" | "recipe",
  entries: readonly unknown[],
  prefix: string,
  schema: z.ZodType<Read>,
  refused: RefusedInFile[],
): (Read & { place: string })[] {
  return entries.flatMap((entry, index) => {
    const place = `${prefix}${index}`;
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
