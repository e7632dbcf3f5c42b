import { z } from "zod";
import { mostLines } from "../chem/chemistry.ts";
import { inlineMaterial } from "./analysis-body.ts";
import { currency, decimalText, decimalWithin, line, ticked, whole } from "./fields.ts";
import { part } from "./recipe-body.ts";

/** What one search may be asked, by whether somebody is signed in. */
export const planLimits = {
  visitor: { candidates: 12, recipes: 20 },
  member: { candidates: 40, recipes: 200 },
} as const;

export type PlanLimits = { candidates: number; recipes: number };

const material = z.union([line(80), inlineMaterial], {
  error: "A material's slug, or an object with a name and a formula or an analysis.",
});

const inlineRecipe = z.strictObject({
  name: line(80),
  lines: z
    .array(z.strictObject({ material, part, amount: decimalText }))
    .min(1, "A recipe has at least one line.")
    .max(mostLines),
});

const recipe = z.union([line(80), inlineRecipe], {
  error: "A recipe's slug, or an object with a name and lines.",
});

/** A form sends one ticked box as a text, several as a list. */
const list = <Each extends z.ZodType>(each: Each, most: number, few: string) =>
  z.preprocess(
    (sent) => (typeof sent === "string" ? [sent] : sent),
    z.array(each).min(1, few).max(most, `At most ${most} of these at a time.`),
  );

const within = decimalText
  .refine((share) => share.gt(0) && share.lte(1), {
    error: "A share above 0 and up to 1, such as 0.05 for five in a hundred.",
  })
  .transform((share) => share.toNumber())
  .default(0.05);

/** POST /shelf-plan: nothing of it is stored. `all` stands for every recipe that one may see. */
export const planBody = ({ candidates, recipes }: PlanLimits) =>
  z
    .object({
      recipes: list(recipe, recipes, "Choose at least one recipe.").optional(),
      all: ticked.default(false),
      candidates: list(material, candidates, "Choose at least one material."),
      size: whole(1, planLimits.member.candidates),
      within,
      /** What one pack of each may cost; then the size is the most there may be. */
      budget: decimalWithin(0, 10_000_000, 4).optional(),
      currency: currency.optional(),
      curve: ticked.default(false),
    })
    .refine((asked) => asked.all || asked.recipes, {
      error: "Choose at least one recipe.",
      path: ["recipes"],
    })
    .refine((asked) => asked.size <= asked.candidates.length, {
      error: "A shelf cannot hold more materials than there are candidates.",
      path: ["size"],
    });

/** POST /shelf-reach: nothing of it is stored. Without recipes, every one that one may see. */
export const reachBody = ({ candidates, recipes }: PlanLimits) =>
  z.object({
    have: list(material, candidates, "Choose at least one material that you have."),
    recipes: list(recipe, recipes, "Choose at least one recipe.").optional(),
    within,
  });

export type PlanBody = z.output<ReturnType<typeof planBody>>;
export type ReachBody = z.output<ReturnType<typeof reachBody>>;
export type AskedMaterial = z.output<typeof material>;
export type AskedRecipe = z.output<typeof recipe>;
