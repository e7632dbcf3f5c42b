import { v7 as uuidv7 } from "uuid";
import { FamilyForm, type FamilyTyped } from "../../views/families/form.tsx";
import type { WholeFamily } from "../db/families.ts";
import type { Typed } from "../wire/body.ts";
import type { Fault } from "../wire/problems.tsx";

type Form = { family?: WholeFamily; typed: Typed; faults: readonly Fault[] };

/** The form of a family, new or said anew, with what was typed and what is wrong with it. */
export const formPage = ({ family, typed, faults }: Form) => ({
  page: {
    title: family ? `Change ${family.name}` : "A new family",
    here: "library",
  } as const,
  view: () => (
    <FamilyForm
      family={family && { slug: family.slug, name: family.name, leftOut: family.leftOut }}
      typed={asTyped(typed)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});

const asTyped = ({ name, recipes, intro }: Typed): FamilyTyped => ({
  name: typeof name === "string" ? name : "",
  recipes: Array.isArray(recipes) ? recipes.join("\n") : String(recipes ?? ""),
  intro: typeof intro === "string" ? intro : "",
});

/** A family as its form would have it typed. */
export const typedOf = ({ name, recipes, intro }: WholeFamily): Typed => ({
  name,
  recipes: recipes.map((recipe) => recipe.name),
  intro,
});
