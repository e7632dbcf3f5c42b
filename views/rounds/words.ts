import { bandWords } from "../../src/chem/bands.ts";
import type { ShownStop } from "./types.ts";

export const stirredWords = ({ daysSinceStirred: days }: ShownStop): string => {
  if (days === null) return "nobody said when it was stirred";
  if (days === 0) return "stirred today";
  return days === 1 ? "stirred yesterday" : `stirred ${days} days ago`;
};

/** “1.45, right (1.43 to 1.47)” or “1.52, should be 1.43 to 1.47”; a dash where nobody measured. */
export const measureWords = ({ last, target, within }: ShownStop["gravity"]): string => {
  const aim = target ? bandWords(target) : "";
  if (!last) return aim === "" ? "–" : `–, should be ${aim}`;
  if (aim === "") return last.toFixed();
  return within ? `${last.toFixed()}, right (${aim})` : `${last.toFixed()}, should be ${aim}`;
};

export const proofWords = ({ proof }: ShownStop): string => {
  if (!proof) return "none";
  const { sinceMix, deltaE, on } = proof;
  const far = deltaE === null ? "" : `, ΔE00 ${deltaE.toFixed(1)} from the first`;
  return sinceMix ? `${on.toISOString().slice(0, 10)}${far}` : "none since it was mixed";
};
