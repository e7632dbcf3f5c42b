import { z } from "zod";
import { mostLines } from "../chem/chemistry.ts";
import { chemistryLine } from "./chemistry-body.ts";
import { text, whole } from "./fields.ts";
import { revisionAddress } from "./revision-address.ts";

/**
 * Where lines come from: sent along, of a recipe by its slug (`slack-water`, or `slack-water@2`), or
 * typed in a form as either of these, `text`.
 */
export const sourceFields = {
  lines: z.array(chemistryLine).min(1, "Send at least one line.").max(mostLines).optional(),
  recipe: revisionAddress.optional(),
  revision: whole(1, 1_000_000).optional(),
  text: text(4000).optional(),
};

/** Lines from somewhere, where they stand alone; a bare list and a bare address are taken too. */
export const linesSource = z.preprocess(
  (sent) =>
    Array.isArray(sent) ? { lines: sent } : typeof sent === "string" ? { text: sent } : sent,
  z.strictObject(sourceFields),
);

export type LinesSource = z.output<typeof linesSource>;
