import { type Oxide, oxidePlace, oxides } from "../../src/chem/oxides.ts";
import { molesOfPowder } from "../../src/chem/shelf-plan-problem.ts";
import type { PlanPowder, PlanProblem } from "../../src/chem/shelf-plan-types.ts";
import { unityOfMix } from "../../src/chem/shelf-tolerance.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";

/** Powders of a glaze room by formulas, some of them invented; what clays bring along is added. */
const formulas: readonly (readonly [
  name: string,
  formula: string,
  traces?: Partial<Record<Oxide, number>>,
])[] = [
  ["ball-clay", "Al2O3.2.9SiO2.2.1H2O", { Fe2O3: 0.007, TiO2: 0.015, K2O: 0.02 }],
  ["barium-carbonate", "BaCO3"],
  ["bone-ash", "Ca10P6O26H2"],
  ["calcined-alumina", "Al2O3"],
  ["cornish-stone", "0.3K2O.0.3Na2O.0.2CaO.1.2Al2O3.8.5SiO2"],
  ["dolomite", "CaMgC2O6"],
  ["frit-alkaline", "0.8Na2O.0.2CaO.0.1Al2O3.2.4SiO2"],
  ["frit-boron", "0.3Na2O.0.7CaO.0.5B2O3.0.15Al2O3.2.5SiO2"],
  ["frit-zinc", "0.5ZnO.0.5CaO.0.4B2O3.2SiO2"],
  ["gerstley-like", "0.2Na2O.0.8CaO.1.1B2O3.0.3SiO2.2H2O"],
  ["kaolin", "Al2O3.2SiO2.2H2O", { Fe2O3: 0.004, TiO2: 0.001, K2O: 0.01 }],
  ["lithium-carbonate", "Li2CO3"],
  ["magnesium-carbonate", "MgCO3"],
  ["nepheline-syenite", "0.75Na2O.0.25K2O.1.1Al2O3.4.5SiO2"],
  ["petalite", "Li2O.Al2O3.8SiO2"],
  ["potash-feldspar", "0.75K2O.0.25Na2O.Al2O3.6SiO2", { Fe2O3: 0.001 }],
  ["quartz", "SiO2"],
  ["soda-feldspar", "0.1K2O.0.9Na2O.Al2O3.6SiO2"],
  ["spodumene", "Li2O.Al2O3.4SiO2"],
  ["strontium-carbonate", "SrCO3"],
  ["talc", "3MgO.4SiO2.H2O", { Fe2O3: 0.004 }],
  ["whiting", "CaCO3"],
  ["wollastonite", "CaSiO3", { Al2O3: 0.003 }],
  ["zinc-oxide", "ZnO"],
];

/** By how they are called; a price for most of them. */
export const powders: readonly PlanPowder[] = formulas.map(([name, formula, traces = {}], at) => {
  const workedOut = analysisOfFormula(formula, { ideal: true });
  if (workedOut.kind !== "analysis") throw new Error(`${name}: ${workedOut.says}`);
  const moles = molesOfPowder(workedOut.analysis);
  for (const [oxide, more] of Object.entries(traces)) {
    moles[oxidePlace[oxide as Oxide]]! += more;
  }
  return {
    label: name,
    name,
    moles,
    microsPerGram: at % 7 === 3 ? null : 800 + ((at * 37) % 11) * 450,
    pack: at % 7 === 3 ? null : 40_000 + ((at * 53) % 13) * 25_000,
  };
});

/** Random numbers from 0 up to 1, the same for the same seed (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

type Generated = { seed: number; powders: number; recipes: number; within?: number };

/** Recipes of four to six powders each, most of them ordinary, from some of the powders. */
export function generatedProblem({
  seed,
  powders: many,
  recipes,
  within = 0.05,
}: Generated): PlanProblem {
  const random = randomFrom(seed);
  const pick = (most: number) => Math.floor(random() * most);
  const candidates = shuffled([...powders], pick).slice(0, many);
  const shared = ["quartz", "kaolin", "potash-feldspar", "whiting"];
  const targets = Array.from({ length: recipes }, (_, at) => {
    // Now and then a recipe is made of powders that are no candidates.
    const from = pick(5) === 0 ? powders : candidates;
    const usual = from.filter(({ label }) => shared.includes(label));
    const others = shuffled(
      from.filter((each) => !usual.includes(each)),
      pick,
    ).slice(0, 1 + pick(3));
    const chosen = [...usual.filter(() => pick(5) > 0), ...others];
    const amounts = chosen.map(({ label }) =>
      label.endsWith("carbonate") ? 2 + pick(10) : 5 + pick(36),
    );
    const wanted = unityOfMix(amounts, chosen);
    return { label: `recipe-${at}`, name: `Recipe ${at}`, wanted };
  });
  return { powders: candidates, targets, within };
}

function shuffled<Each>(list: Each[], pick: (most: number) => number): Each[] {
  for (let at = list.length - 1; at > 0; at--) {
    const other = pick(at + 1);
    [list[at], list[other]] = [list[other]!, list[at]!];
  }
  return list;
}

/** What the oxides are called at their places, for the words of a failing test. */
export const oxideNames = oxides;
