import type { Named } from "./account-names.ts";
import type { Conventions } from "./chemistry-types.ts";
import { appenSum } from "./expansion-appen.ts";
import { type ExpansionModel, toLinear } from "./expansion-models.ts";
import type { Melt } from "./melt.ts";
import { alkalis, type Oxide, oxides } from "./oxides.ts";
import type { Pull } from "./pulls.ts";
import {
  everyOxide,
  molesOfBase,
  molesPerGram,
  molesPerGramAsFeO,
  only,
  perGram,
} from "./unity-base.ts";

/**
 * A weighted sum over a batch: so much for each part by weight of each oxide (by place), of what is
 * lost, and of what was weighed. `called` is short enough to stand beside a bar.
 */
export type Sum = Pull & { called: string; measure: "moles" | "parts" | "1e-6/K" };

/** A computed number is `scale` × one sum over another. */
export type Fraction = {
  scale: number;
  above: Sum;
  below: Sum;
  /** Oxides whose figures in the analyses the reader wants to see; the loss where it counts. */
  figures: (Oxide | "loss")[];
  /** Whether the parts of `above` add up to the number, or only say how it moves. */
  adds: boolean;
};

/** A sum's value for a batch, for one line of it, or for what an unknown does to it. */
export function totalOf({ masses, loss, weight }: Sum, of: Pull): number {
  let value = loss * of.loss + weight * of.weight;
  for (let place = 0; place < masses.length; place++) {
    value += (masses[place] ?? 0) * (of.masses[place] ?? 0);
  }
  return value;
}

/**
 * A number as one sum over another. That there is something to divide by is for the caller to know.
 *
 * Worked number: `unity.CaO` is moles of CaO over moles of all fluxes; a batch with 0.35 and 0.50
 * mol has 0.70.
 */
export function fractionOf(named: Named, melt: Melt, { unity, iron }: Conventions): Fraction {
  const inMoles = iron === "FeO" ? molesPerGramAsFeO : molesPerGram;
  const base = moles("fluxes", molesOfBase(unity, iron));
  const bySilica = (called: string, above: readonly Oxide[], under: string, below: Oxide[]) =>
    fraction(1, molesOf(called, above), molesOf(under, below), [...above, ...below]);
  switch (named.kind) {
    case "unity": {
      const oxide = named.oxide === "FeO" ? "Fe2O3" : named.oxide;
      return fraction(1, moles(named.oxide, only([oxide], inMoles)), base, [oxide, ...inSum(base)]);
    }
    case "weight":
      return fraction(100, parts(named.oxide, only([named.oxide], perGram)), glassParts, [
        named.oxide,
      ]);
    case "mole":
      return fraction(100, molesOf(named.oxide, [named.oxide]), glassMoles, [named.oxide]);
    case "alkali-share":
      return fraction(1, molesOf("alkalis", alkalis), base, inSum(base));
    case "silica-to-alumina":
      return bySilica("SiO2", ["SiO2"], "Al2O3", ["Al2O3"]);
    case "silica-to-r2o3":
      return bySilica("SiO2", ["SiO2"], "R2O3", ["Al2O3", "B2O3"]);
    case "glass-formers-to-alumina":
      return bySilica("formers", ["SiO2", "B2O3"], "Al2O3", ["Al2O3"]);
    case "loss":
      return fraction(100, { ...nothing, called: "loss", loss: 1 }, wholeBatch, ["loss"]);
    case "unaccounted":
      return fraction(100, rest, wholeBatch, ["loss"]);
    case "expansion":
      return named.model.basis === "mole"
        ? tangentOf(named.model, melt)
        : fraction(1, weighed(named.model), glassParts, []);
  }
}

const fraction = (
  scale: number,
  above: Sum,
  below: Sum,
  figures: readonly (Oxide | "loss")[],
): Fraction => ({ scale, above, below, figures: [...new Set(figures)], adds: true });

const nothing: Sum = {
  masses: new Float64Array(oxides.length),
  loss: 0,
  weight: 0,
  called: "",
  measure: "parts",
};

const parts = (called: string, masses: Float64Array): Sum => ({ ...nothing, called, masses });
const moles = (called: string, masses: Float64Array): Sum => ({
  ...parts(called, masses),
  measure: "moles",
});
const molesOf = (called: string, of: readonly Oxide[]): Sum =>
  moles(called, only(of, molesPerGram));

const glassParts = parts("glass", Float64Array.from(everyOxide));
const glassMoles = moles("glass", molesPerGram);
const wholeBatch: Sum = { ...nothing, called: "batch", weight: 1 };
const rest: Sum = {
  ...nothing,
  called: "rest",
  masses: Float64Array.from(everyOxide, (each) => -each),
  loss: -1,
  weight: 1,
};

const inSum = ({ masses }: Sum): Oxide[] => oxides.filter((_, place) => masses[place]);

function weighed(model: ExpansionModel): Sum {
  const factor = (oxide: Oxide) => 100 * toLinear(model) * (model.factors[oxide] ?? 0);
  return { ...parts("sum", Float64Array.from(oxides, factor)), measure: "1e-6/K" };
}

/** Where factors move with the glass, no line's part stands alone: this tells only how it moves. */
function tangentOf(model: ExpansionModel, melt: Melt): Fraction {
  const molar = melt.masses.map((mass, place) => mass * (molesPerGram[place] ?? 0));
  const all = molar.reduce((sum, each) => sum + each, 0);
  const { growth } = appenSum(
    model,
    molar.map((each) => (100 * each) / all),
  );
  const above = growth.map((each, place) => toLinear(model) * each * (molesPerGram[place] ?? 0));
  return {
    ...fraction(1, { ...moles("sum", above), measure: "1e-6/K" }, glassMoles, []),
    adds: false,
  };
}
