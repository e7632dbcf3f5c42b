import type { Quantity } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";

/**
 * What leaves the kiln, percent of the batch as weighed; below 0 where oxygen is taken up.
 * Worked number: a batch of whiting alone, CaCO3, loses 43.97.
 */
export function lossOnIgnition(melt: Melt): Quantity {
  const { loss, weight } = melt;
  let squares = melt.lossVariance;
  for (const pull of melt.pulls) squares += (pull.loss - (loss / weight) * pull.weight) ** 2;
  return { value: (100 * loss) / weight, plusMinus: (100 / weight) * Math.sqrt(squares) };
}

/**
 * What is neither glass nor loss, percent of the batch as weighed: the rest that analyses with a
 * given loss leave open, and lines without an analysis. With glass and loss it makes 100.
 */
export function unaccounted(melt: Melt): Quantity {
  const { weight } = melt;
  let rest = 0;
  for (const { powder, amount } of melt.ingredients) {
    rest += powder ? (amount * powder.unaccounted) / 100 : amount;
  }
  let squares = melt.restVariance;
  for (const pull of melt.pulls) {
    let moved = pull.weight - pull.loss;
    for (const place of melt.present) moved -= pull.masses[place] ?? 0;
    squares += (moved - (rest / weight) * pull.weight) ** 2;
  }
  return { value: (100 * rest) / weight, plusMinus: (100 / weight) * Math.sqrt(squares) };
}
