import { coneCelsius } from "../../src/chem/cones.ts";
import { type Claim, claimWords } from "../tiles/cone-words.ts";

/** "cone 6 (about 1222 °C at 60 °C an hour, …)": the cones with their series and how hot they are. */
export function claimInFull(claim: Claim): string {
  const [low, high] = [coneCelsius(claim.low), coneCelsius(claim.high)];
  const known = low ?? high;
  if (!known) return `${claimWords(claim)} (no temperature of it is held here)`;
  const ends = [low, high].flatMap((end) => (end ? [end.celsius] : []));
  const heat = [...new Set(ends)].join(" to ");
  return `${claimWords(claim)} (about ${heat} °C at ${known.rate} °C an hour, ${known.series})`;
}

/** The same where there is little room: "cone 6, about 1222 °C (…)". */
export function claimInShort(claim: Claim): string {
  const heats = [claim.low, claim.high].flatMap((cone) => coneCelsius(cone) ?? []);
  const [known] = heats;
  if (!known) return claimWords(claim);
  const ends = [...new Set(heats.map(({ celsius }) => celsius))].join(" to ");
  return `${claimWords(claim)}, about ${ends} °C (${known.series})`;
}

/** As many whole sentences, from the first, as there is room for in letters. */
export function fitting(sentences: readonly string[], room: number): string[] {
  let left = room;
  const cut = sentences.findIndex((sentence) => {
    left -= sentence.length + 1;
    return left < 0;
  });
  return cut === -1 ? [...sentences] : sentences.slice(0, cut);
}
