import type { Quantity } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";

/**
 * One weighted sum of a melt's masses over another, with its ±; null where the lower sum is 0.
 *
 *     value = Σ above(x) m(x) ÷ Σ below(x) m(x)
 *
 * First order: an unknown that moves m(x) moves the value by (above(x) − value × below(x)) / lower
 * sum, and the squares of what the independent unknowns do add up.
 *
 * @param above coefficients by place, per gram. @param below the same for the lower sum.
 *
 * Worked number: 60.083 g of SiO2 and 101.961 of Al2O3, each with 1/molar mass, are 1 to 1.
 */
export function quotient(melt: Melt, above: Float64Array, below: Float64Array): Quantity | null {
  const { present, masses, massVariance, pulls } = melt;
  let [top, bottom] = [0, 0];
  for (const place of present) {
    const mass = masses[place] ?? 0;
    top += (above[place] ?? 0) * mass;
    bottom += (below[place] ?? 0) * mass;
  }
  if (bottom === 0) return null;
  const value = top / bottom;
  let squares = 0;
  for (const place of present) {
    const slope = (above[place] ?? 0) - value * (below[place] ?? 0);
    squares += slope * slope * (massVariance[place] ?? 0);
  }
  for (const pull of pulls) {
    let moved = 0;
    for (const place of present) {
      const slope = (above[place] ?? 0) - value * (below[place] ?? 0);
      moved += slope * (pull.masses[place] ?? 0);
    }
    squares += moved * moved;
  }
  return { value, plusMinus: Math.sqrt(squares) / bottom };
}
