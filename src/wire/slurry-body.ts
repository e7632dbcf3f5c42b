import { Decimal } from "decimal.js";
import { z } from "zod";
import { decimalText } from "./fields.ts";
import { revisionAddress } from "./revision-address.ts";

/** Where a powder's own is not known: common practice, no source. */
export const assumedDryGravity = "2.65";

/** POST /slurry: nothing of it is stored. What is too much or too little is for chem to say. */
export const slurryBody = z.object({
  specificGravity: decimalText,
  drySpecificGravity: decimalText.default(() => new Decimal(assumedDryGravity)),
  litres: decimalText.default(() => new Decimal(1)),
  targetGravity: decimalText.optional(),
  /** Its powders say what the dry gravity is, whatever else is said of that. */
  recipe: revisionAddress.optional(),
});

export type SlurryBody = z.output<typeof slurryBody>;
