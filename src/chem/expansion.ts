import type { Expansion, HowSure, Quantity } from "./chemistry-types.ts";
import { appenSum } from "./expansion-appen.ts";
import { type ExpansionModel, expansionModels, sureOf, toLinear } from "./expansion-models.ts";
import { type Melt, oxideAt } from "./melt.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { quotient } from "./quotient.ts";
import { molesPerGram, perGram } from "./unity-base.ts";

/** The most of a glass, weight percent, that may be left out of a sum before it says nothing. */
export const mostOutside = 2;

/**
 * The expansion of a melt by each published model, as linear 1e-6/K: none where there is no glass.
 *
 *     value = Σ percent(x) × factor(x), in 1e-7/K, ÷ 10, and ÷ 3 where the model is cubical
 *
 * Percents are of the whole fired glass, by weight or by mole as the model has it, iron as Fe2O3. An
 * oxide without a factor, or with more of it than its factor was printed for, is left out of the sum
 * and listed in `outside`: the value is then of the rest of the glass, and null where what is left
 * out is over 2 % by weight. ± (k = 2) is the analyses' part alone; the models' own error is never
 * less than their spread (expansionSpread). No value says by itself whether a glaze fits a body.
 *
 * Worked number: SiO2 74, Na2O 16, CaO 10 weight percent, Winkelmann & Schott: 74 × 0.8 + 16 × 10 +
 * 10 × 5 = 269.2 cubical, 89.7 linear in 1e-7/K, so 8.97.
 */
export function expansionOf(melt: Melt): Expansion[] {
  return melt.glass > 0 ? expansionModels.map((model) => byModel(model, melt)) : [];
}

function byModel(model: ExpansionModel, melt: Melt): Expansion {
  const { id, name, basis, kind, celsius, source } = model;
  const outside: Oxide[] = [];
  let leftOut = 0;
  let howSure: HowSure | undefined;
  for (const place of melt.present) {
    const oxide = oxideAt(place);
    const percent = (100 * (melt.masses[place] ?? 0)) / melt.glass;
    if (percent <= 0) continue;
    if (model.factors[oxide] === undefined || isOver(percent, model.upTo?.[oxide])) {
      outside.push(oxide);
      leftOut += percent;
    } else {
      howSure = lessSure(sureOf(model, oxide), howSure);
    }
  }
  const sum = isOver(leftOut, mostOutside) ? null : sumOf(model, melt, outside);
  return {
    model: id,
    value: sum?.value ?? null,
    plusMinus: sum?.plusMinus ?? null,
    unit: "1e-6/K",
    source,
    outside,
    ...{ name, basis, kind, celsius, howSure: howSure ?? "low" },
  };
}

/** Over a bound by more than float64 noise, so that exactly 2 % is not over 2 %. */
const isOver = (percent: number, most = Number.POSITIVE_INFINITY): boolean => percent > most + 1e-9;

const sureness: readonly HowSure[] = ["low", "from memory", "looked up"];

function lessSure(a: HowSure, b: HowSure | undefined): HowSure {
  return b === undefined || sureness.indexOf(a) < sureness.indexOf(b) ? a : b;
}

function sumOf(model: ExpansionModel, melt: Melt, outside: readonly Oxide[]): Quantity | null {
  if (model.basis === "mole") return sumOverMoles(model, melt);
  const above = factorsPerGram.get(model) ?? new Float64Array(oxides.length);
  return quotient(melt, outside.length > 0 ? without(above, outside) : above, perGram);
}

/** By model: linear 1e-6/K of a glass that is all one oxide. */
const factorsPerGram = new Map(
  expansionModels.map((model) => {
    const perOxide = (oxide: Oxide) => 100 * toLinear(model) * (model.factors[oxide] ?? 0);
    return [model, Float64Array.from(oxides, perOxide)];
  }),
);

function without(factors: Float64Array, outside: readonly Oxide[]): Float64Array {
  return factors.map((factor, place) => (outside.includes(oxideAt(place)) ? 0 : factor));
}

/** The ± of a sum whose factors move with the glass is that of its tangent at this glass. */
function sumOverMoles(model: ExpansionModel, melt: Melt): Quantity | null {
  const moles = melt.masses.map((mass, place) => mass * (molesPerGram[place] ?? 0));
  let all = 0;
  for (const each of moles) all += each;
  const { sum, growth } = appenSum(
    model,
    moles.map((each) => (100 * each) / all),
  );
  const tangent = growth.map((each, place) => toLinear(model) * each * (molesPerGram[place] ?? 0));
  const spread = quotient(melt, tangent, molesPerGram);
  return spread && { value: sum * toLinear(model), plusMinus: spread.plusMinus };
}
