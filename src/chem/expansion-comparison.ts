import type { Expansion, Quantity } from "./chemistry-types.ts";

/** How far the models lie apart, linear 1e-6/K. */
export type ExpansionSpread = { least: number; most: number; of: number };

/**
 * The smallest and the largest answer of the models, and of how many: the models' own error is never
 * less than this, whatever the ±. Null where no model answers. Hall's factors are remembered without
 * being sure, and count all the same.
 *
 * Worked number: 8.97, 8.91 and 9.91 are from 8.91 to 9.91, of 3.
 */
export function expansionSpread(expansions: readonly Expansion[]): ExpansionSpread | null {
  const values = expansions.flatMap(({ value }) => (value === null ? [] : [value]));
  if (values.length === 0) return null;
  return { least: Math.min(...values), most: Math.max(...values), of: values.length };
}

/** `by` is what this one has more than the reference, linear 1e-6/K, below 0 where it has less. */
export type Beside =
  | { kind: "no-reference"; says: string }
  | { kind: "higher" | "lower" | "cannot-be-told"; model: string; by: Quantity; says: string };

/**
 * One glaze's expansion beside that of a glaze which this studio recorded as fitting on the body, by
 * the same model. An absolute value says nothing of fit, so without a reference there is no word.
 *
 * The two ± are added as squares, as if no analysis were in both; where some are, the true ± of the
 * difference is smaller, so that "cannot be told" comes rather too often than too seldom.
 *
 * Worked number: 7.4 ± 0.1 beside 7.0 ± 0.1 is higher by 0.4 ± 0.14.
 */
export function expansionBeside(
  model: string,
  here: readonly Expansion[],
  reference: readonly Expansion[] | undefined,
): Beside {
  const [mine, fitting] = [answerOf(model, here), answerOf(model, reference ?? [])];
  if (!mine || !fitting) return { kind: "no-reference", says: "no reference on this body yet" };
  const by = {
    value: mine.value - fitting.value,
    plusMinus: Math.hypot(mine.plusMinus, fitting.plusMinus),
  };
  if (Math.abs(by.value) <= by.plusMinus) {
    const says = "cannot be told apart from the glaze that fits, from these analyses";
    return { kind: "cannot-be-told", model, by, says };
  }
  const kind = by.value > 0 ? "higher" : "lower";
  return { kind, model, by, says: `${kind} than a glaze recorded as fitting on this body` };
}

function answerOf(model: string, expansions: readonly Expansion[]): Quantity | null {
  const found = expansions.find((each) => each.model === model);
  if (!found || found.value === null || found.plusMinus === null) return null;
  return { value: found.value, plusMinus: found.plusMinus };
}
