import { Decimal } from "decimal.js";
import { oxides } from "./oxides.ts";
import { shareOut } from "./shares.ts";
import type { PlanMix, PlanPowder } from "./shelf-plan-types.ts";
import {
  isFlux,
  isWithin,
  reachRows,
  toleranceAt,
  unityOfMix,
  worstMiss,
} from "./shelf-tolerance.ts";
import { solveSmall } from "./small-lp.ts";

type Asked = { wanted: readonly number[]; powders: readonly PlanPowder[]; within: number };

/** What a mix costs for its weight beside what it costs for missing: it only decides between equals. */
const costOfWeight = 1e-6;

/**
 * The mix of some powders that comes nearest to a base within the tolerance: the smallest sum of
 * misses, |got − wanted| over what is wanted or over 0.1; null where no mix is within it. Amounts have
 * the fewest decimals, two at the least, with which what is printed is still within the tolerance.
 */
export function nearestMix({ wanted, powders, within }: Asked): PlanMix | null {
  const rows = reachRows(wanted, powders, within).map(({ coefficients, most }) => ({
    coefficients: Array.from(coefficients),
    most,
  }));
  const costs = powders.map(() => costOfWeight);
  for (const { row, cost } of missRows(wanted, powders)) {
    const at = costs.push(cost) - 1;
    for (const { sign, most } of row.ends) {
      const coefficients = row.brought.map((each) => sign * each);
      coefficients[at] = -1;
      rows.push({ coefficients, most });
    }
  }
  const answer = solveSmall({ rows, costs });
  return answer.kind === "best" ? printed(answer.x, { wanted, powders, within }) : null;
}

/** For each oxide a column of its own that is at least how far it is off, both ways. */
function missRows(wanted: readonly number[], powders: readonly PlanPowder[]) {
  return oxides.flatMap((_, place) => {
    const want = wanted[place] ?? 0;
    const brought = powders.map(({ moles }) => moles[place] ?? 0);
    if (want === 0 && brought.every((each) => each === 0)) return [];
    const ends = [
      { sign: 1, most: want },
      { sign: -1, most: -want },
    ];
    return [{ row: { brought, ends }, cost: 1 / Math.max(want, 0.1) }];
  });
}

function printed(x: Float64Array, { wanted, powders, within }: Asked): PlanMix | null {
  const used = powders.flatMap((_, powder) => {
    const amount = x[powder] ?? 0;
    return amount > 0 ? [{ powder, amount: new Decimal(amount) }] : [];
  });
  if (used.length === 0) return null;
  for (let decimals = 2; decimals <= 12; decimals++) {
    const step = new Decimal(10).pow(-decimals);
    const steps = new Decimal(100).div(step);
    const shares = shareOut(
      used.map(({ amount }) => amount),
      steps,
    );
    const lines = used.flatMap(({ powder }, at) => {
      const amount = (shares[at] ?? new Decimal(0)).times(step);
      return amount.isZero() ? [] : [{ powder, amount }];
    });
    const amounts = new Float64Array(powders.length);
    for (const { powder, amount } of lines) amounts[powder] = amount.toNumber();
    const got = unityOfMix(amounts, powders);
    if (!got || !isWithin(got, wanted, within)) continue;
    return {
      lines: lines.map(({ powder, amount }) => ({ powder, amount: amount.toFixed() })),
      worst: worstMiss(got, wanted),
    };
  }
  return null;
}

/** An oxide that a shelf cannot bring within its tolerance, and what its nearest mix has of it. */
export type OutOfReach = { place: number; wanted: number; got: number };

/**
 * What the nearest mix of some powders is off by: of all mixes the one that passes its tolerances by
 * least, each counted by its own; null where the powders bring no flux.
 */
export function outOfReach({ wanted, powders, within }: Asked): OutOfReach[] | null {
  const flux = powders.map(({ moles }) =>
    moles.reduce((sum, each, at) => sum + each * (isFlux[at] ?? 0), 0),
  );
  if (flux.every((each) => each === 0)) return null;
  const costs: number[] = powders.map(() => costOfWeight);
  const rows = reachRows(wanted, powders, within).map(({ kind, place, coefficients, most }) => {
    const row = Array.from(coefficients);
    if (kind !== "flux") {
      const at = costs.push(1 / toleranceAt(place, wanted[place] ?? 0, within)) - 1;
      row[at] = -1;
    }
    return { coefficients: row, most };
  });
  const answer = solveSmall({ rows, costs });
  const got = answer.kind === "best" ? unityOfMix(answer.x, powders) : null;
  if (!got) return null;
  return oxides.flatMap((_, place) => {
    const want = wanted[place] ?? 0;
    const have = got[place] ?? 0;
    const off = Math.abs(have - want) > toleranceAt(place, want, within) + 1e-7;
    return off ? [{ place, wanted: want, got: have }] : [];
  });
}
