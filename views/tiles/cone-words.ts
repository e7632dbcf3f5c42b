import { type Cone, compareCones, coneCelsius, cones } from "../../src/chem/cones.ts";
import { degrees, degreesApart, heatFirst } from "../parts/degrees.ts";

/**
 * A cone where it is first named: its name alone misleads, since 04 and 4 are far apart. Which of
 * cone and temperature comes first is the reader's choice; neither is left out.
 */
export function coneInFull(cone: Cone): string {
  const heat = coneCelsius(cone);
  if (!heat) return `cone ${cone} (no temperature of it is held here)`;
  const hot = `about ${degrees(heat.celsius)} at ${degreesApart(heat.rate)} an hour`;
  return heatFirst()
    ? `${hot}: cone ${cone} (${heat.series})`
    : `cone ${cone} (${hot}, ${heat.series})`;
}

/** A cone in a list to choose from: "6 (about 1222 °C)", or "about 1222 °C: cone 6". */
export function coneInShort(cone: Cone): string {
  const heat = coneCelsius(cone);
  if (!heat) return cone;
  const hot = `about ${degrees(heat.celsius)}`;
  return heatFirst() ? `${hot}: cone ${cone}` : `${cone} (${hot})`;
}

/** The same in a sentence: "cone 6 (about 1222 °C)", or "about 1222 °C: cone 6". */
export const coneNamed = (cone: Cone): string =>
  heatFirst() && coneCelsius(cone) ? coneInShort(cone) : `cone ${coneInShort(cone)}`;

/** Every cone, to choose from. */
export const coneChoices = () => cones.map((cone) => ({ value: cone, label: coneInShort(cone) }));

export type Claim = { low: Cone; high: Cone };

/** "cone 6", or "cones 5 to 6". */
export const claimWords = ({ low, high }: Claim): string =>
  low === high ? `cone ${low}` : `cones ${low} to ${high}`;

export const isOutside = (cone: Cone, { low, high }: Claim): boolean =>
  compareCones(cone, low) < 0 || compareCones(cone, high) > 0;

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
