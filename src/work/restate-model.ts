import type { Oxide } from "../chem/oxides.ts";
import { type BaseConditions, conditionsOf } from "../chem/restate-conditions.ts";
import { type MeanEnds, meanOf } from "../chem/restate-means.ts";
import { fluxMoles, type Moles, missOf, missScale, type Restatable } from "../chem/restating.ts";
import type { LpModel, LpRow } from "./lp.ts";

/** What a material's share of the base must lie between, in percent. */
export type Bound = { least?: number | undefined; most?: number | undefined };

/** What a glaze is restated to, and what has to hold of the mix. All plain data. */
export type RestateGoal = BaseConditions & {
  wanted: Moles;
  /** The oxides whose misses count. */
  counted: Oxide[];
  /** By a material's key. */
  bounds: Record<string, Bound>;
  /** Oxides that come before the others: their misses are made smallest first. */
  first?: Oxide[] | undefined;
};

/** Hundreds of grams of each material, by key, for one mole of flux. */
export type Amounts = Record<string, number>;

/** Names of the variables: a material's amount, an oxide's miss, and the worst of the misses. */
export const amountOf = (key: string) => `amount ${key}`;
export const missNamed = (oxide: Oxide) => `miss ${oxide}`;
export const worstMiss = "worst";

/**
 * The linear model of restating: amounts from 0 up whose fluxes add up to 1, each oxide's miss at
 * least as large as it is off to either side, the worst as large as any, bounds as shares of the
 * whole, means as what lies above their ends. `minimise` is the sum of the misses.
 */
export function restateModel(goal: RestateGoal, shelf: readonly Restatable[]): LpModel {
  const rows: LpRow[] = [{ coefficients: sumOver(shelf, fluxesOf), least: 1, most: 1 }];
  const reached = reachedBy(goal, shelf);
  for (const oxide of reached) {
    const wanted = goal.wanted[oxide] ?? 0;
    const scale = missScale(wanted);
    const off = sumOver(shelf, ({ moles }) => (moles[oxide] ?? 0) / scale);
    const miss = missNamed(oxide);
    rows.push(
      { coefficients: { ...off, [miss]: -1 }, most: wanted / scale },
      { coefficients: { ...off, [miss]: 1 }, least: wanted / scale },
      { coefficients: { [worstMiss]: 1, [miss]: -1 }, least: 0 },
    );
  }
  for (const { key } of shelf) rows.push(...boundRows(goal.bounds[key] ?? {}, key, shelf));
  for (const { ends } of conditionsOf(goal))
    for (const each of ends) rows.push(...meanRows(each, shelf));
  return {
    variables: [
      ...shelf.map(({ key }) => ({ name: amountOf(key) })),
      ...reached.map((oxide) => ({ name: missNamed(oxide) })),
      { name: worstMiss, least: Math.max(0, ...missedAnyway(goal, shelf)) },
    ],
    rows,
    minimise: sumOfMisses(goal, shelf),
  };
}

/** The oxides that count and that some material brings: the others are missed whatever is mixed. */
const reachedBy = (goal: RestateGoal, shelf: readonly Restatable[]): Oxide[] =>
  goal.counted.filter((oxide) => shelf.some(({ moles }) => moles[oxide]));

/** The misses of oxides that no material brings. */
export const missedAnyway = (goal: RestateGoal, shelf: readonly Restatable[]): number[] => {
  const reached = reachedBy(goal, shelf);
  return goal.counted
    .filter((oxide) => !reached.includes(oxide))
    .map((oxide) => missOf(goal.wanted[oxide] ?? 0, 0));
};

/** What mixing can do about the sum of the misses, of all that count or of some. */
export const sumOfMisses = (
  goal: RestateGoal,
  shelf: readonly Restatable[],
  of: readonly Oxide[] = goal.counted,
): Record<string, number> =>
  Object.fromEntries(
    reachedBy(goal, shelf).flatMap((oxide) => (of.includes(oxide) ? [[missNamed(oxide), 1]] : [])),
  );

export const batchWeight = (shelf: readonly Restatable[]): Record<string, number> =>
  sumOver(shelf, () => 1);

const fluxesOf = ({ moles }: Restatable) => fluxMoles(moles);

function boundRows({ least, most }: Bound, key: string, shelf: readonly Restatable[]): LpRow[] {
  const share = (percent: number) =>
    sumOver(shelf, (material) => (material.key === key ? 1 : 0) - percent / 100);
  return [
    ...(least ? [{ coefficients: share(least), least: 0 }] : []),
    ...(most === undefined || most >= 100 ? [] : [{ coefficients: share(most), most: 0 }]),
  ];
}

/** Σ above ≤ end × Σ below is linear; its largest coefficient is 1, whatever it is measured in. */
export function meanRows({ mean, least, most }: MeanEnds, shelf: readonly Restatable[]): LpRow[] {
  const past = (end: number) => {
    const each = sumOver(shelf, (material) => mean.above(material) - end * mean.below(material));
    const largest = Math.max(...Object.values(each).map(Math.abs)) || 1;
    return Object.fromEntries(Object.entries(each).map(([name, size]) => [name, size / largest]));
  };
  return [
    ...(least === undefined ? [] : [{ coefficients: past(least), least: 0 }]),
    ...(most === undefined ? [] : [{ coefficients: past(most), most: 0 }]),
  ];
}

export const sumOver = (
  shelf: readonly Restatable[],
  coefficient: (material: Restatable) => number,
): Record<string, number> =>
  Object.fromEntries(shelf.map((material) => [amountOf(material.key), coefficient(material)]));

/** How far a bound may be missed, in parts of the base: far below what any scale shows. */
const boundTolerance = 1e-7;

/** How far a mean may be past an end, in parts of the end, or of 1 where that is less. */
const meanTolerance = 1e-6;

/**
 * Whether amounts keep every bound, reckoned anew from the amounts alone. What a solver hands over
 * counts only where they do.
 */
export function keepsBounds(
  goal: RestateGoal,
  shelf: readonly Restatable[],
  amounts: Amounts,
): boolean {
  const all = shelf.reduce((sum, { key }) => sum + (amounts[key] ?? 0), 0);
  const fluxed = shelf.reduce(
    (sum, { key, moles }) => sum + (amounts[key] ?? 0) * fluxMoles(moles),
    0,
  );
  if (!(all > 0 && fluxed > 0) || Object.values(amounts).some((amount) => !(amount >= 0)))
    return false;
  const mix = shelf.map((of) => ({ of, amount: amounts[of.key] ?? 0 }));
  const keeps = ({ mean, least = -Infinity, most = Infinity }: MeanEnds): boolean => {
    const value = meanOf(mean, mix);
    const off = (end: number) => meanTolerance * Math.max(1, Math.abs(end));
    return (
      (least === -Infinity || value >= least - off(least)) &&
      (most === Infinity || value <= most + off(most))
    );
  };
  if (!conditionsOf(goal).every(({ ends }) => ends.every(keeps))) return false;
  return Object.entries(goal.bounds).every(([key, { least = 0, most = 100 }]) => {
    const share = (amounts[key] ?? 0) / all;
    return share >= least / 100 - boundTolerance && share <= most / 100 + boundTolerance;
  });
}
