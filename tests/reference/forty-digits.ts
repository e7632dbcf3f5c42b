import { Decimal } from "decimal.js";
import type { ChemistryRequest } from "../../src/chem/chemistry-types.ts";
import { exactExpansion } from "./forty-digit-expansion.ts";
import { d, type Exact, massOf, zero } from "./forty-digit-numbers.ts";

export type { Exact } from "./forty-digit-numbers.ts";

type D = Decimal;

/**
 * The chemistry a second time, written apart from the first: 40-digit decimals, molar masses from
 * the oxide's name, and a naive sum over every single unknown by the quotient rule.
 */
export type ExactChemistry = {
  loss: Exact;
  unaccounted: Exact;
  weight: Record<string, Exact>;
  mole: Record<string, Exact>;
  unity: Record<string, Exact> | null;
  silicaToAlumina: Exact | null;
  alkaliShare: Exact | null;
  potashAndSoda: Exact | null;
  silicaToR2O3: Exact | null;
  glassFormersToAlumina: Exact | null;
  expansion: Record<string, Exact | null>;
};

/** What one unknown moves, times its ± at k = 2. */
type Move = { masses: Record<string, D>; loss: D; weight: D };
type State = Move;

const assumed = (percent: D): D =>
  Decimal.max(
    "0.1",
    Decimal.min(percent.abs().times("0.03"), d(100).minus(percent).times("0.3").plus("0.1")),
  );

/** @param plusMinus false leaves every ± at 0, which is many times quicker. */
export function fortyDigits(request: ChemistryRequest, { plusMinus = true } = {}): ExactChemistry {
  const { state, moves: all } = takeApart(request);
  const moves = plusMinus ? all : [];
  const names = Object.keys(state.masses);
  const one = Object.fromEntries(names.map((name) => [name, d(1)]));
  const perMole = Object.fromEntries(names.map((name) => [name, d(1).div(massOf(name))]));
  const asFeO = request.iron === "FeO";
  const inUnity = { ...perMole };
  if (asFeO && inUnity.Fe2O3) inUnity.Fe2O3 = inUnity.Fe2O3.times(2);
  const base = ["Li2O", "Na2O", "K2O", "MgO", "CaO", "SrO", "BaO", "ZnO", "PbO"];
  if (request.unity === "fluxes-and-colour") {
    base.push("MnO", "CoO", "CuO", "NiO");
    if (asFeO) base.push("Fe2O3");
  }
  const sum = (of: State, coefficients: Record<string, D>, over: string[]): D =>
    over.reduce(
      (total, name) => total.plus((coefficients[name] ?? zero).times(of.masses[name] ?? zero)),
      zero,
    );
  const quotient = (scale: number, above: (of: State) => D, below: Sums): Exact => {
    const top = above(state);
    const bottom = below.of(state);
    const bottomSquared = bottom.times(bottom);
    let squares = zero;
    for (const move of moves) {
      const moved = above(move)
        .times(bottom)
        .minus(top.times(below.of(move)))
        .div(bottomSquared);
      squares = squares.plus(moved.times(scale).pow(2));
    }
    return { value: top.times(scale).div(bottom), plusMinus: squares.sqrt() };
  };
  const each = (scale: number, coefficients: Record<string, D>, over: string[]) => {
    const below = sums((of) => sum(of, coefficients, over), [state, ...moves]);
    if (below.of(state).isZero()) return null;
    return Object.fromEntries(
      names.map((name) => [name, quotient(scale, (of) => sum(of, coefficients, [name]), below)]),
    );
  };
  const ratio = (coefficients: Record<string, D>, above: string[], under: string[]) => {
    const below = sums((of) => sum(of, coefficients, under), [state, ...moves]);
    if (below.of(state).isZero()) return null;
    return quotient(1, (of) => sum(of, coefficients, above), below);
  };
  const unity = each(1, inUnity, base);
  if (asFeO && unity?.Fe2O3) {
    unity.FeO = unity.Fe2O3;
    delete unity.Fe2O3;
  }
  const rest = (of: State) => of.weight.minus(of.loss).minus(sum(of, one, names));
  const weight = sums((of) => of.weight, [state, ...moves]);
  return {
    loss: quotient(100, (of) => of.loss, weight),
    unaccounted: quotient(100, rest, weight),
    weight: each(100, one, names) ?? {},
    mole: each(100, perMole, names) ?? {},
    unity,
    silicaToAlumina: ratio(perMole, ["SiO2"], ["Al2O3"]),
    alkaliShare: ratio(inUnity, ["Li2O", "Na2O", "K2O"], base),
    potashAndSoda: ratio(inUnity, ["K2O", "Na2O"], base),
    silicaToR2O3: ratio(perMole, ["SiO2"], ["Al2O3", "B2O3"]),
    glassFormersToAlumina: ratio(perMole, ["SiO2", "B2O3"], ["Al2O3"]),
    expansion: exactExpansion(state.masses, moves),
  };
}

/** What a sum is in the batch and in each of its moves, worked out once. */
type Sums = { of: (state: State) => D };

function sums(sum: (of: State) => D, states: State[]): Sums {
  const known = new Map(states.map((state) => [state, sum(state)]));
  return { of: (state) => known.get(state) ?? zero };
}

function takeApart({ lines, grams, scaleGrams }: ChemistryRequest): {
  state: State;
  moves: Move[];
} {
  const state: State = { masses: {}, loss: zero, weight: zero };
  const moves: Move[] = [];
  const used = lines.filter((line) => !line.amount.isZero());
  for (const key of new Set(used.map((line) => line.key))) {
    const mine = used.filter((line) => line.key === key);
    const amount = mine.reduce((total, line) => total.plus(line.amount), zero);
    const analysis = mine[0]!.analysis;
    state.weight = state.weight.plus(amount);
    const percents: Record<string, D> = {};
    let lost = zero;
    if (analysis) {
      const listed = Object.entries(analysis.oxides).map(([name, figure]) => ({
        name,
        percent: d(figure.percent),
        plusMinus: figure.plusMinus
          ? d(figure.plusMinus)
          : analysis.ideal
            ? zero
            : assumed(d(figure.percent)),
      }));
      const total = listed.reduce((all, { percent }) => all.plus(percent), zero);
      const given = analysis.lossOnIgnition;
      const missingLoss = !given && total.lte(100);
      lost = given ? d(given.percent) : missingLoss ? d(100).minus(total) : zero;
      const left = analysis.basis === "calcined" ? d(100).minus(lost).div(100) : d(1);
      const share = amount.div(100);
      for (const { name, percent, plusMinus } of listed) {
        percents[name] = percent.times(left);
        const moved = share.times(left).times(plusMinus);
        moves.push({
          masses: { [name]: moved },
          loss: missingLoss ? moved.neg() : zero,
          weight: zero,
        });
      }
      if (given) {
        const plusMinus = given.plusMinus
          ? d(given.plusMinus)
          : analysis.ideal
            ? zero
            : assumed(lost);
        const masses: Record<string, D> = {};
        if (analysis.basis === "calcined") {
          for (const { name, percent } of listed)
            masses[name] = share.times(percent).times(plusMinus).div(-100);
        }
        moves.push({ masses, loss: share.times(plusMinus), weight: zero });
      }
      for (const [name, percent] of Object.entries(percents)) {
        state.masses[name] = (state.masses[name] ?? zero).plus(share.times(percent));
      }
      state.loss = state.loss.plus(share.times(lost));
    }
    if (!grams || !scaleGrams) continue;
    const base = lines.reduce(
      (all, line) => (line.part === "base" ? all.plus(line.amount) : all),
      zero,
    );
    const off = d(scaleGrams).div(2).div(d(3).sqrt()).times(2).times(base).div(grams);
    for (const _part of new Set(mine.map((line) => line.part))) {
      const masses = Object.fromEntries(
        Object.entries(percents).map(([name, percent]) => [name, off.times(percent).div(100)]),
      );
      moves.push({ masses, loss: off.times(lost).div(100), weight: off });
    }
  }
  return { state, moves };
}
