import { z } from "zod";
import { mostLines } from "../chem/chemistry.ts";
import { compareCones, cones } from "../chem/cones.ts";
import { decimalText, line, text } from "./fields.ts";

export const cone = z.enum(cones, {
  error: `A cone as it is written on it, ${cones[0]} to ${cones.at(-1)}: 04 is not 4.`,
});

export const part = z.enum(["base", "addition"]);

const recipeLine = z.strictObject({ part, material: line(80), amount: decimalText });

/** Cones from the cooler to the hotter. */
export const coneRange = z
  .strictObject({ low: cone, high: cone })
  .refine(({ low, high }) => compareCones(low, high) <= 0, {
    error: "The lower cone is the cooler one: 06, 04, 4 and 6 are in order.",
    path: ["high"],
  });

/** Everything that a revision says, as people publish it. */
export const revisionBody = z.object({
  message: line(500, 0).default(""),
  lines: z.array(recipeLine).min(1, "A recipe has at least one line.").max(mostLines),
  use: z.enum(["functional", "decorative"]).default("decorative"),
  cones: coneRange,
  atmosphere: z
    .enum(["oxidation", "neutral", "reduction", "salt", "soda", "wood", "raku"])
    .default("oxidation"),
  surface: line(60, 0).default(""),
  about: text(8000, 0).default(""),
});

export type RevisionBody = z.output<typeof revisionBody>;

/** A fork: the lines of the revision that it starts from, the head's unless said, or lines sent along. */
export const forkBody = z.object({
  name: line(80),
  revision: z.coerce.number().int().min(1).max(1_000_000).optional(),
  lines: revisionBody.shape.lines.optional(),
  message: line(500).optional(),
});

export type ForkBody = z.output<typeof forkBody>;

export const shownTo = z.enum(["private", "studio", "public"]);

export const recipeBody = z.object({
  name: line(80),
  shownTo: shownTo.default("public"),
  revision: revisionBody,
});

export const nextRevisionBody = revisionBody.extend({
  basedOn: z.coerce.number().int().min(1).max(1_000_000),
});
