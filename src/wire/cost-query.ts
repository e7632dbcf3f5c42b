import { z } from "zod";
import { decimalText, whole } from "./fields.ts";

const gravity = decimalText
  .refine(
    (given) => given.gt(1) && given.lte(8) && given.decimalPlaces() <= 4,
    "A slurry's specific gravity, such as 1.45.",
  )
  .optional();

/** GET /recipes/:slug/cost. */
export const recipeCostQuery = z.object({ revision: whole(1, 1_000_000).optional(), gravity });

/** GET /buckets/:id/cost. */
export const bucketCostQuery = z.object({ gravity, shares: whole(1, 200).optional() });
