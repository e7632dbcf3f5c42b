import { type Cone, compareCones, coneCelsius } from "../../src/chem/cones.ts";

/** A cone where it is first named: its name alone misleads, since 04 and 4 are far apart. */
export function coneInFull(cone: Cone): string {
  const heat = coneCelsius(cone);
  if (!heat) return `cone ${cone} (no temperature of it is held here)`;
  return `cone ${cone} (about ${heat.celsius} °C at ${heat.rate} °C an hour, ${heat.series})`;
}

/** A cone in a list to choose from. */
export function coneInShort(cone: Cone): string {
  const heat = coneCelsius(cone);
  return heat ? `${cone} (about ${heat.celsius} °C)` : cone;
}

export type Claim = { low: Cone; high: Cone };

/** "cone 6", or "cones 5 to 6". */
export const claimWords = ({ low, high }: Claim): string =>
  low === high ? `cone ${low}` : `cones ${low} to ${high}`;

export const isOutside = (cone: Cone, { low, high }: Claim): boolean =>
  compareCones(cone, low) < 0 || compareCones(cone, high) > 0;

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
