import type { Decimal } from "decimal.js";
import { differenceWords } from "../../views/compare/words.ts";
import { together } from "../chem/bucket-contents.ts";
import {
  type Difference,
  differencesBetween,
  type FigureName,
  figureDifferencesBetween,
} from "../chem/differences.ts";
import type { PowderIn } from "../db/bucket-ticks.ts";
import type { FoundBucket } from "../db/buckets.ts";

/** What is in a bucket now, by bag and by line of the recipe, beside what its revision says. */
export type BucketContents = {
  digest: string;
  dryGrams: Decimal;
  lots: PowderIn[];
  lines: PowderIn[];
  assumed: string[];
  /** null where nothing is in it. */
  chemistry: {
    differences: Difference[];
    figures: Difference<FigureName>[];
    moved: string[];
    /** That it is told with the rest of an open mix as planned. */
    asPlanned: boolean;
  } | null;
};

export function contentsOfBucket({
  digest,
  filling,
  chemistry,
  moved,
}: FoundBucket): BucketContents {
  const { powders, dryGrams, assumed } = filling.contents;
  return {
    digest,
    dryGrams,
    lots: together(powders, ({ material, lot, analysisId }) =>
      [material.id, lot?.id, lot ? "" : analysisId].join(" "),
    ),
    lines: together(powders, ({ material, part, analysisId, notThisLot }) =>
      [material.id, part, analysisId, notThisLot].join(" "),
    ),
    assumed,
    chemistry: chemistry && {
      differences: differencesBetween(chemistry.before, chemistry.after),
      figures: figureDifferencesBetween(chemistry.before, chemistry.after),
      moved,
      asPlanned: filling.toCome.length > 0,
    },
  };
}

/** Grams as decimals to a tenth; `analysis` is an id, or null where the powder has none. */
export const contentsJson = ({ digest, dryGrams, lots, lines, ...more }: BucketContents) => ({
  digest,
  dryGrams: gramsOf(dryGrams),
  lots: lots.map(({ lot, ...powder }) => ({
    id: lot?.id ?? null,
    mark: lot?.mark ?? null,
    ...powderJson(powder),
  })),
  lines: lines.map(({ part, ...powder }) => ({ part, ...powderJson(powder) })),
  assumed: more.assumed,
  chemistry: more.chemistry && {
    ...more.chemistry,
    differences: more.chemistry.differences.map(inWords),
    figures: more.chemistry.figures.map(inWords),
  },
});

const powderJson = ({
  material,
  grams,
  analysisId,
  notThisLot,
}: Omit<PowderIn, "lot" | "part">) => ({
  material: { slug: material.slug, name: material.name },
  grams: gramsOf(grams),
  analysis: analysisId,
  notThisLot,
});

const gramsOf = (grams: Decimal): string => grams.toDecimalPlaces(1).toFixed();

const inWords = <Of extends string>(difference: Difference<Of>) => ({
  ...difference,
  says: differenceWords(difference),
});
