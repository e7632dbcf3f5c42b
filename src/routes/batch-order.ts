import { Decimal } from "decimal.js";
import { z } from "zod";
import { baseThatUsesUp, gramsOf, type WeightUnit, weightUnits } from "../chem/batch-amounts.ts";
import type { SlurriedLine } from "../chem/blend-slurries.ts";
import type { BatchOrder } from "../chem/weighed-batch.ts";
import { decimalText } from "../wire/fields.ts";
import type { Fault } from "../wire/problems.tsx";

/** How much to weigh: an amount, or a bucket to fill, or what is left of one powder. */
export const batchQuery = z.object({
  amount: decimalText.optional(),
  unit: z.enum(weightUnits).optional(),
  litres: decimalText.optional(),
  gravity: decimalText.optional(),
  powder: z.string().max(80).optional(),
  have: decimalText.optional(),
  scaleGrams: decimalText.optional(),
});

export type BatchQuery = z.output<typeof batchQuery>;

export type OrderedBatch =
  | {
      kind: "order";
      order: BatchOrder;
      /** What weights are shown in beside grams. */
      unit: WeightUnit;
      usesUp: string | undefined;
    }
  | { kind: "faulty"; faults: Fault[] };

type KnownLine = SlurriedLine & { material: { slug: string; name: string } };

/**
 * The batch that was asked for; where nothing was, a kilogram of base, or two pounds for whoever
 * weighs in pounds. An amount without a unit is in grams whoever asks, so that an address means one
 * batch.
 *
 * @param ownUnit what the reader weighs in.
 */
export function orderedBatch(
  lines: readonly KnownLine[],
  asked: BatchQuery,
  { studioScale, ownUnit }: { studioScale: Decimal; ownUnit: WeightUnit },
): OrderedBatch {
  const { unit = ownUnit, scaleGrams = studioScale } = asked;
  const fills = asked.litres !== undefined || asked.gravity !== undefined;
  const usesUp = asked.powder !== undefined || asked.have !== undefined;
  if ([asked.amount !== undefined, fills, usesUp].filter(Boolean).length > 1)
    return faulty(
      "amount",
      "An amount, a bucket to fill, or a powder to use up: one of the three.",
    );
  if (!(scaleGrams.gt(0) && scaleGrams.lte(1000)))
    return faulty("scaleGrams", "A scale's step is more than 0 and at most 1000 g.");
  const ordered = (order: Omit<BatchOrder, "scaleGrams">, used?: string): OrderedBatch => ({
    ...{ kind: "order", order: { ...order, scaleGrams }, unit, usesUp: used },
  });
  if (fills) {
    const { litres, gravity } = asked;
    if (!litres) return faulty("litres", "How many litres are to be filled?");
    if (!gravity) return faulty("gravity", "Of which specific gravity, such as 1.45?");
    return ordered({ fill: { litres, specificGravity: gravity } });
  }
  if (usesUp) return usingUp(lines, asked, { scaleGrams, ordered });
  const { amount } = asked;
  return amount
    ? ordered({ grams: gramsOf(amount, asked.unit ?? "g", scaleGrams) })
    : ordered({ grams: gramsOf(inUnitOf(unit), unit, scaleGrams) });
}

/** What is weighed where nothing was asked: a kilogram, or two pounds. */
const inUnitOf = (unit: WeightUnit): Decimal => new Decimal({ g: 1000, kg: 1, lb: 2 }[unit]);

function usingUp(
  lines: readonly KnownLine[],
  { powder, have }: BatchQuery,
  {
    scaleGrams,
    ordered,
  }: {
    scaleGrams: Decimal;
    ordered: (order: { grams: Decimal }, used: string) => OrderedBatch;
  },
): OrderedBatch {
  const used = lines.find(({ material }) => material.slug === powder);
  if (!used) return faulty("powder", "One of the powders of this recipe.");
  if (!(have?.gt(0) && have.lte(1_000_000)))
    return faulty("have", `How many grams of ${used.material.name} are there?`);
  const isIt = (line: KnownLine) => line.material.slug === powder;
  const grams = baseThatUsesUp({ lines, isIt, have, scaleGrams });
  if (grams.isZero())
    return faulty("have", "So little of it is less than this scale can weigh a batch for.");
  return ordered({ grams }, used.material.name);
}

const faulty = (path: string, says: string): OrderedBatch => ({
  kind: "faulty",
  faults: [{ path, says }],
});
