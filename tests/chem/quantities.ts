import { expect } from "vitest";
import type { Chemistry, Quantity } from "../../src/chem/chemistry.ts";

/** Every number of an answer by a name, so that two answers can be laid side by side. */
export function quantitiesOf(answer: Chemistry): Map<string, Quantity> {
  const all = new Map<string, Quantity>([["loss", answer.lossOnIgnition]]);
  if (answer.unaccounted) all.set("unaccounted", answer.unaccounted);
  for (const [of, set] of Object.entries({
    weight: answer.weightPercent,
    mole: answer.molePercent,
    unity: answer.unity ?? {},
    ratio: answer.ratios,
  })) {
    for (const [name, quantity] of Object.entries(set))
      if (quantity) all.set(`${of} ${name}`, quantity);
  }
  for (const { model, value, plusMinus } of answer.expansion) {
    if (value !== null && plusMinus !== null) all.set(`expansion ${model}`, { value, plusMinus });
  }
  return all;
}

/** Equal to a relative tolerance of the value or its ±, whichever is the larger. */
export function expectSame(
  actual: Quantity | undefined,
  wanted: Quantity | undefined,
  what: string,
  tolerance = 1e-12,
): void {
  if (!actual || !wanted) {
    expect(actual, what).toEqual(wanted);
    return;
  }
  const allowed = tolerance * Math.max(Math.abs(wanted.value), wanted.plusMinus, 1e-3);
  const off = Math.abs(actual.value - wanted.value);
  const offPlusMinus = Math.abs(actual.plusMinus - wanted.plusMinus);
  // A plain comparison first: hundreds of thousands of these are made, and an expectation is slow.
  if (off <= allowed && offPlusMinus <= allowed) return;
  expect(off, `${what}, value`).toBeLessThanOrEqual(allowed);
  expect(offPlusMinus, `${what}, ±`).toBeLessThanOrEqual(allowed);
}

/** The same answer, but for the noise of float64. */
export function expectSameAnswer(actual: Chemistry, wanted: Chemistry): void {
  const [here, there] = [quantitiesOf(actual), quantitiesOf(wanted)];
  expect([...here.keys()].sort()).toEqual([...there.keys()].sort());
  for (const [name, quantity] of here) expectSame(quantity, there.get(name), name);
}
