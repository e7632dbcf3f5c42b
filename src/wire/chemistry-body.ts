import { z } from "zod";
import { mostLines } from "../chem/chemistry.ts";
import { inlineMaterial } from "./analysis-body.ts";
import { decimalText, line, ticked } from "./fields.ts";
import { cone, part } from "./recipe-body.ts";

/** A material of the shelf by its slug, or one that is sent along with a formula or an analysis. */
export const sentMaterial = z.union([line(80), inlineMaterial], {
  error: "A material's slug, or an object with a name and a formula or an analysis.",
});

export const chemistryLine = z.strictObject({
  material: sentMaterial,
  part,
  amount: decimalText,
});

/** How things are counted, where somebody has a choice. */
export const conventionFields = {
  unity: z.enum(["fluxes", "fluxes-and-colour"]).default("fluxes"),
  iron: z.enum(["Fe2O3", "FeO"]).default("Fe2O3"),
  boron: z.enum(["apart", "with-alumina", "with-silica"]).default("apart"),
};

/** POST /chemistry: nothing of it is stored. */
export const chemistryBody = z.object({
  lines: z.array(chemistryLine).min(1, "Send at least one line.").max(mostLines),
  ...conventionFields,
  cone: cone.optional(),
  use: z.enum(["functional", "decorative"]).optional(),
  explain: ticked.default(false),
  grams: decimalText.optional(),
  scaleGrams: decimalText.optional(),
});

export type ChemistryBody = z.output<typeof chemistryBody>;
