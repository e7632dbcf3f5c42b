import type { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { type BatchSheet, batchSheet } from "./batch.ts";
import { type Fill, type FilledBatch, filledBatch } from "./batch-fill.ts";
import type { SlurriedLine } from "./blend-slurries.ts";

/** A batch by the weight of its base, or by the slurry that it is to make: one of the two. */
export type BatchOrder = {
  grams?: Decimal | undefined;
  fill?: Fill | undefined;
  scaleGrams: Decimal;
};

export type WeighedBatch<Line> =
  | (Extract<BatchSheet<Line>, { kind: "sheet" }> & {
      filled?: Extract<FilledBatch, { kind: "filled" }> | undefined;
    })
  | { kind: "refused"; faults: Fault[] };

/**
 * What to weigh for a batch of so many grams of base, or to fill a bucket (see `batchSheet` and
 * `filledBatch`). `refused` names the fields: `grams`, `scaleGrams`, `fill.litres`, `lines`.
 */
export function weighedBatch<Line extends SlurriedLine>(
  lines: readonly Line[],
  { grams, fill, scaleGrams }: BatchOrder,
): WeighedBatch<Line> {
  if (grams) return batchSheet({ lines, grams, scaleGrams });
  // A scale or an amount that no batch can be weighed with is told before what it would fill.
  const possible = batchSheet({ lines, grams: scaleGrams, scaleGrams });
  if (possible.kind === "refused") {
    return { ...possible, faults: possible.faults.filter(({ path }) => path !== "grams") };
  }
  const filled = fill && filledBatch({ lines, fill, scaleGrams });
  if (!filled) throw new Error("a batch has grams or a fill");
  if (filled.kind === "refused") return filled;
  const sheet = batchSheet({ lines, grams: filled.grams, scaleGrams });
  if (sheet.kind === "sheet") return { ...sheet, filled };
  const says = "A batch weighs at most 1000000 g of base. Fill less.";
  return { kind: "refused", faults: [{ path: "fill.litres", says }] };
}
