import { coneCelsius } from "../../src/chem/cones.ts";
import { degrees, degreesApart, heatFirst } from "../parts/degrees.ts";
import { type Claim, claimWords } from "../tiles/cone-words.ts";

/** "cone 6 (about 1222 °C at 60 °C an hour, …)": the cones with their series and how hot they are. */
export function claimInFull(claim: Claim): string {
  const [known, ...more] = heatsOf(claim);
  if (!known) return `${claimWords(claim)} (no temperature of it is held here)`;
  const heats = [known, ...more].map(({ celsius }) => celsius);
  const hot = `about ${degrees(...heats)} at ${degreesApart(known.rate)} an hour`;
  return heatFirst()
    ? `${hot}: ${claimWords(claim)} (${known.series})`
    : `${claimWords(claim)} (${hot}, ${known.series})`;
}

/** The same where there is little room: "cone 6, about 1222 °C (…)". */
export function claimInShort(claim: Claim): string {
  const [known, ...more] = heatsOf(claim);
  if (!known) return claimWords(claim);
  const hot = `about ${degrees(...[known, ...more].map(({ celsius }) => celsius))}`;
  return heatFirst()
    ? `${hot}, ${claimWords(claim)} (${known.series})`
    : `${claimWords(claim)}, ${hot} (${known.series})`;
}

const heatsOf = ({ low, high }: Claim) => [low, high].flatMap((cone) => coneCelsius(cone) ?? []);

/** As many whole sentences, from the first, as there is room for in letters. */
export function fitting(sentences: readonly string[], room: number): string[] {
  let left = room;
  const cut = sentences.findIndex((sentence) => {
    left -= sentence.length + 1;
    return left < 0;
  });
  return cut === -1 ? [...sentences] : sentences.slice(0, cut);
}
