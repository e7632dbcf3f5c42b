import type { Analysis } from "../../src/chem/analysis.ts";
import {
  countedOxides,
  fluxMoles,
  type Moles,
  missScale,
  type Restatable,
  restatable,
  unityOfMix,
} from "../../src/chem/restating.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import { mulberry32 } from "../chem/draws.ts";
import { simplex } from "./simplex.ts";

/** Powders as textbooks write them; their analyses follow from the formulas. */
const formulas: Record<string, string> = {
  "potash feldspar": "K2O·Al2O3·6SiO2",
  "soda feldspar": "Na2O·Al2O3·6SiO2",
  "lime feldspar": "CaO·Al2O3·2SiO2",
  spodumene: "Li2O·Al2O3·4SiO2",
  kaolin: "Al2O3·2SiO2·2H2O",
  quartz: "SiO2",
  chalk: "CaCO3",
  wollastonite: "CaO·SiO2",
  dolomite: "CaMg(CO3)2",
  talc: "3MgO·4SiO2·H2O",
  magnesite: "MgCO3",
  "zinc oxide": "ZnO",
  "barium carbonate": "BaCO3",
  "strontium carbonate": "SrCO3",
  alumina: "Al2O3",
  "bone ash": "3CaO·P2O5",
  colemanite: "2CaO·3B2O3·5H2O",
  "boron frit": "0.3Na2O·0.7CaO·0.5B2O3·2.5SiO2",
  "soda frit": "0.6Na2O·0.4CaO·0.2Al2O3·1.8SiO2",
  "zinc frit": "0.4K2O·0.6ZnO·0.4B2O3·0.2Al2O3·2SiO2",
  rutile: "TiO2",
  "red iron oxide": "Fe2O3",
};

export const analyses: ReadonlyMap<string, Analysis> = new Map(
  Object.entries(formulas).map(([name, formula]) => {
    const workedOut = analysisOfFormula(formula, { ideal: true });
    if (workedOut.kind !== "analysis") throw new Error(`${formula}: ${workedOut.says}`);
    return [name, workedOut.analysis];
  }),
);

export const powders: readonly Restatable[] = [...analyses].map(([name, analysis]) =>
  restatable({ key: name, name, analysis }),
);

export type Restating = { wanted: Moles; shelf: Restatable[] };

/** Glazes made of powders, each with a shelf: with its own powders among others, or without them. */
export function* restatings(
  seed: number,
  count: number,
  shelf: "its own and others" | "others only",
): Generator<Restating> {
  const draw = mulberry32(seed);
  for (let made = 0; made < count; ) {
    const shuffled = powders.map((of) => ({ of, at: draw() })).sort((a, b) => a.at - b.at);
    const all = shuffled.map(({ of }) => of);
    const size = 2 + Math.floor(draw() * 6);
    const [own, others] = [all.slice(0, size), all.slice(size)];
    const wanted = unityOfMix(
      own.map(({ moles }) => ({ moles, amount: 0.1 + Math.floor(draw() * 600) / 10 })),
    );
    const some = others.slice(0, 3 + Math.floor(draw() * 10));
    if (!wanted || !some.some(({ moles }) => fluxMoles(moles) > 0)) continue;
    made++;
    const mixed = [...own, ...some].sort(
      (a, b) => ((a.name.length * 7) % 5) - ((b.name.length * 7) % 5),
    );
    yield { wanted, shelf: shelf === "others only" ? some : mixed };
  }
}

/** Σ each × amount ≤ 0 over a shelf's materials, in their order. */
export type Row = readonly number[];

/**
 * The smallest sum of misses by our own simplex. With x the amounts, u and v how far an oxide is
 * over and under, in parts of its scale: A x / scale − u + v = wanted / scale, fluxes · x = 1,
 * minimise Σ u + v. Rows are met with what is left over as a further variable each.
 */
export function smallestSum(
  { wanted, shelf }: Restating,
  from: "lines" | "unity",
  rows: readonly Row[] = [],
): number | null {
  const { a, b, misses } = standardForm({ wanted, shelf }, from, rows);
  const answer = simplex({ a, b, c: misses });
  return answer.kind === "optimal" ? answer.objective : null;
}

/**
 * The smallest Σ each × amount of the mixes whose misses add up to `sum` at most, none of them over
 * `worst`.
 */
export function smallestOf(
  each: Row,
  restating: Restating,
  { sum, worst, rows }: { sum: number; worst: number; rows: readonly Row[] },
): number | null {
  const { a, b, misses, counted } = standardForm(restating, "lines", rows);
  const more = 1 + counted;
  const padded = a.map((row) => [...row, ...Array<number>(more).fill(0)]);
  const slack = (at: number) => Array.from({ length: more }, (_, other) => (other === at ? 1 : 0));
  const before = restating.shelf.length;
  const worsts = Array.from({ length: counted }, (_, at) => [
    ...misses.map((_, column) =>
      column === before + at || column === before + counted + at ? 1 : 0,
    ),
    ...slack(1 + at),
  ]);
  const answer = simplex({
    a: [...padded, [...misses, ...slack(0)], ...worsts],
    b: [...b, sum, ...worsts.map(() => worst)],
    c: [...each, ...Array<number>(misses.length + more - each.length).fill(0)],
  });
  return answer.kind === "optimal" ? answer.objective : null;
}

function standardForm({ wanted, shelf }: Restating, from: "lines" | "unity", rows: readonly Row[]) {
  const counted = countedOxides(from, wanted).filter(
    (oxide) => wanted[oxide] || shelf.some(({ moles }) => moles[oxide]),
  );
  const left = rows.map(() => 0);
  const oxideRows = counted.map((oxide, at) => {
    const scale = missScale(wanted[oxide] ?? 0);
    const each = (sign: number) => counted.map((_, other) => (other === at ? sign : 0));
    const brought = shelf.map(({ moles }) => (moles[oxide] ?? 0) / scale);
    return [...brought, ...each(-1), ...each(1), ...left];
  });
  const none = counted.flatMap(() => [0, 0]);
  return {
    a: [
      ...oxideRows,
      [...shelf.map(({ moles }) => fluxMoles(moles)), ...none, ...left],
      ...rows.map((row, at) => [
        ...row,
        ...none,
        ...left.map((_, other) => (other === at ? 1 : 0)),
      ]),
    ],
    b: [
      ...counted.map((oxide) => (wanted[oxide] ?? 0) / missScale(wanted[oxide] ?? 0)),
      1,
      ...left,
    ],
    misses: [...shelf.map(() => 0), ...none.map(() => 1), ...left],
    counted: counted.length,
  };
}
