import type { Quantity } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";

/**
 * Each oxide of a melt over a sum of oxides, with its ±: weight percent, mole percent and the
 * unity formula are all of this shape.
 *
 *     value(x) = scale × c(x) m(x) ÷ Σ over the base of c m
 *
 * First order: the ± is the root of the sum of the squares of what each unknown does. Since every
 * term is squared before it is added, nothing cancels, and a glaze of one oxide gets exactly ± 0.
 *
 * @param coefficients c, by place: 1 for weight, 1/molar mass for moles.
 * @param inBase by place, 1 where the oxide is part of the sum. The sum must not be 0.
 * @returns values in the order of `melt.present`.
 */
export function proportions(
  melt: Melt,
  coefficients: Float64Array,
  inBase: Uint8Array,
  scale: number,
): Quantity[] {
  const { present, pulls } = melt;
  const count = present.length;
  const moles = new Float64Array(count);
  const variance = new Float64Array(count);
  const member = new Uint8Array(count);
  let base = 0;
  for (let at = 0; at < count; at++) {
    const place = present[at] ?? 0;
    const coefficient = coefficients[place] ?? 0;
    moles[at] = coefficient * (melt.masses[place] ?? 0);
    variance[at] = coefficient * coefficient * (melt.massVariance[place] ?? 0);
    member[at] = inBase[place] ?? 0;
    if (member[at]) base += moles[at] ?? 0;
  }
  const sums = pulls.map((pull) => {
    let sum = 0;
    for (const place of present) {
      if (inBase[place]) sum += (coefficients[place] ?? 0) * (pull.masses[place] ?? 0);
    }
    return sum;
  });
  const quantities: Quantity[] = [];
  for (let at = 0; at < count; at++) {
    const share = (moles[at] ?? 0) / base;
    let [others, othersVariance] = [0, 0];
    for (let other = 0; other < count; other++) {
      if (other === at || !member[other]) continue;
      others += moles[other] ?? 0;
      othersVariance += variance[other] ?? 0;
    }
    const own = member[at] ? others / base : 1;
    let squares = (variance[at] ?? 0) * own * own + othersVariance * share * share;
    const place = present[at] ?? 0;
    for (let index = 0; index < pulls.length; index++) {
      const pulled = (coefficients[place] ?? 0) * (pulls[index]?.masses[place] ?? 0);
      const moved = pulled - share * (sums[index] ?? 0);
      squares += moved * moved;
    }
    quantities.push({ value: scale * share, plusMinus: (scale / base) * Math.sqrt(squares) });
  }
  return quantities;
}
