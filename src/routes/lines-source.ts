import type { Cone } from "../chem/cones.ts";
import { readRecipeText } from "../chem/recipe-text.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundLine, findRevision } from "../db/revisions.ts";
import type { Ctx } from "../wire/context.ts";
import type { LinesSource } from "../wire/lines-source.ts";
import type { Fault } from "../wire/problems.tsx";
import { revisionAddress } from "../wire/revision-address.ts";
import { resolveLines, type SentLine } from "./sent-lines.ts";

/** The recipe that lines were taken from. */
export type SourceRecipe = {
  slug: string;
  name: string;
  number: number;
  isPrivate: boolean;
  cones: { low: Cone; high: Cone };
};

export type ReadSource =
  | { kind: "read"; lines: SentLine[]; recipe: SourceRecipe | null }
  | { kind: "faulty"; status: 404 | 422; faults: Fault[] };

/**
 * The lines of a computing call, wherever they come from. A recipe is found through the reader's
 * scope, and its powders are those of the shelf today, since that is what will be weighed.
 *
 * @param prefix the path of the source in the request, with its dot.
 */
export async function readSource(
  c: Ctx,
  { lines, recipe, revision, text }: LinesSource,
  prefix = "",
): Promise<ReadSource> {
  const given = [lines, recipe, text].filter((one) => one !== undefined);
  if (given.length !== 1) {
    const says =
      given.length === 0
        ? "Lines are needed, or a recipe by its address."
        : "Lines or a recipe, not both.";
    const path = given.length > 1 ? "recipe" : "lines";
    return faultyAt(`${prefix}${path}`, says);
  }
  if (revision !== undefined && !recipe)
    return faultyAt(`${prefix}revision`, "A revision belongs to a recipe. Name the recipe too.");
  if (recipe) return ofRecipe(c, { ...recipe, number: revision ?? recipe.number }, prefix);
  if (lines) return read(await resolveLines(c.var.db, lines, prefix));
  return typed(c, text ?? "", `${prefix}text`);
}

const read = ({ lines, faults }: { lines: SentLine[]; faults: Fault[] }): ReadSource =>
  faults.length > 0
    ? { kind: "faulty", status: 422, faults }
    : { kind: "read", lines, recipe: null };

const faultyAt = (path: string, says: string, status: 404 | 422 = 422): ReadSource => ({
  kind: "faulty",
  status,
  faults: [{ path, says }],
});

type Address = { slug: string; number: number | undefined };

async function ofRecipe(c: Ctx, { slug, number }: Address, prefix: string): Promise<ReadSource> {
  const recipe = await findRecipe(c.var.db, { slug, reader: c.var.viewer });
  if (!recipe) {
    const says = `There is no recipe “${slug}”, or none that you may see.`;
    return faultyAt(`${prefix}recipe`, says, 404);
  }
  const revision = await findRevision(c.var.db, {
    recipeId: recipe.id,
    number: number ?? recipe.head,
  });
  if (!revision) return faultyAt(`${prefix}revision`, `${recipe.name} has no revision ${number}.`);
  const { name, shownTo } = recipe;
  return {
    kind: "read",
    lines: revision.lines.map(asWeighedToday),
    recipe: {
      ...{ slug, name, number: revision.number, isPrivate: shownTo === "private" },
      cones: revision.cones,
    },
  };
}

function asWeighedToday({ part, material, analysis: then, amount }: FoundLine): SentLine {
  const analysis = material.inUse ?? then;
  return {
    key: analysis?.id ?? material.id,
    name: material.name,
    material: material.slug,
    part,
    amount,
    analysis: analysis?.analysis ?? null,
    analysedOn: analysis?.measuredOn ?? undefined,
    pinned: { materialId: material.id, analysisId: analysis?.id ?? null },
  };
}

/** What a form's box holds: the address of a recipe, or lines as people paste them. */
async function typed(c: Ctx, text: string, path: string): Promise<ReadSource> {
  const address = text.includes("\n") ? undefined : revisionAddress.safeParse(text).data;
  if (address) {
    const found = await ofRecipe(c, address, "");
    return found.kind === "read" ? found : { ...found, faults: atPath(found.faults, path) };
  }
  const pasted = readRecipeText(text);
  if (pasted.faults.length > 0) {
    const faults = pasted.faults.map(({ row, says }) => ({ path, says: `Row ${row}: ${says}` }));
    return { kind: "faulty", status: 422, faults };
  }
  if (pasted.lines.length === 0) return faultyAt(path, "Nothing here reads as a line.");
  const sent = pasted.lines.map(({ part, name, amount }) => ({ part, material: name, amount }));
  const { lines, faults } = await resolveLines(c.var.db, sent);
  return read({ lines, faults: atPath(faults, path) });
}

const atPath = (faults: readonly Fault[], path: string): Fault[] =>
  faults.map(({ says }) => ({ path, says }));
