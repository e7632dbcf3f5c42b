import { mostOutside } from "./expansion.ts";
import { type ExpansionModel, expansionModels, toLinear } from "./expansion-models.ts";
import { molarMass, type Oxide } from "./oxides.ts";
import { fluxMoles, type Restatable } from "./restating.ts";

/** A figure of a mix: Σ above × amount ÷ Σ below × amount, in any one measure of the amounts. */
export type Mean = {
  above: (material: Restatable) => number;
  below: (material: Restatable) => number;
};

/** What a mean lies between. */
export type MeanEnds = { mean: Mean; least?: number | undefined; most?: number | undefined };

/** Percent of the base. Worked number: chalk and quartz in equal parts lose 44 and 0, so 22. */
export const lossMean: Mean = { above: ({ loss }) => loss, below: () => 1 };

/** For a kilogram of the base. Worked number: equal parts at 1.20 and 0.80 cost 1.00. */
export const costMean: Mean = { above: ({ perKilogram = 0 }) => perKilogram, below: () => 1 };

/** Moles for one of flux. Worked number: chalk and quartz, a mole of each, have SiO2 1. */
export const unityMean = (oxide: Oxide): Mean => ({
  above: ({ moles }) => moles[oxide] ?? 0,
  below: ({ moles }) => fluxMoles(moles),
});

/**
 * The models that a mix can be held to: those whose factors are fixed. Where they move with the glass
 * the expansion is no mean over its powders.
 */
export const holdableModels: readonly ExpansionModel[] = expansionModels.filter(
  ({ basis }) => basis === "weight",
);

/**
 * The expansion of the fired base, linear 1e-6/K, as `expansionOf` has it: what has no factor counts
 * in the glass and adds nothing. Worked number: chalk by Winkelmann & Schott is all CaO, 5 × 100 ÷ 30.
 */
export const expansionMean = (model: ExpansionModel): Mean => ({
  above: ({ moles }) =>
    massOf(moles, (oxide) => 100 * toLinear(model) * (model.factors[oxide] ?? 0)),
  below: glass,
});

/** Between which ends a model still answers: what it leaves out is a small part of the glass. */
export const answeredBy = (model: ExpansionModel): MeanEnds[] => [
  {
    mean: percentOfGlass((oxide) => model.factors[oxide] === undefined),
    most: mostOutside - aHair,
  },
  ...Object.entries(model.upTo ?? {}).map(([printed, most]) => ({
    mean: percentOfGlass((oxide) => oxide === printed),
    most: most - aHair,
  })),
];

/** So much less that amounts as printed are on the near side of an end, percent. */
const aHair = 1e-6;

/** The figure itself; NaN where there is nothing to divide by. */
export const meanOf = (
  { above, below }: Mean,
  mix: readonly { of: Restatable; amount: number }[],
): number => {
  const total = (each: (material: Restatable) => number) =>
    mix.reduce((sum, { of, amount }) => sum + amount * each(of), 0);
  return total(above) / total(below);
};

const percentOfGlass = (counts: (oxide: Oxide) => boolean): Mean => ({
  above: ({ moles }) => massOf(moles, (oxide) => (counts(oxide) ? 100 : 0)),
  below: glass,
});

const glass: Mean["below"] = ({ moles }) => massOf(moles, () => 1);

/** Grams of oxides in a gram of a powder, each so many times. */
const massOf = (moles: Restatable["moles"], times: (oxide: Oxide) => number): number =>
  (Object.entries(moles) as [Oxide, number][]).reduce(
    (sum, [oxide, each]) => sum + (each * molarMass[oxide] * times(oxide)) / 100,
    0,
  );
