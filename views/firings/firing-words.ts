import { type WitnessReading, witnessReads } from "../../src/chem/witness.ts";
import type { Firing, Witness } from "./types.ts";

/** What a witness cone's bend says of its own cone. */
export const readingWords: Readonly<Record<WitnessReading, string>> = {
  "not-reached": "not reached",
  reached: "down: this cone was reached",
  past: "past it",
};

const inShort: Readonly<Record<WitnessReading, string>> = {
  "not-reached": "not reached",
  reached: "down",
  past: "past it",
};

/**
 * "cone 5 past it, cone 6 down, cone 7 not reached", in the order in which they stood; with their
 * places where one cone stood in several.
 */
export const witnessWords = (witness: readonly Witness[]): string =>
  witness
    .map(({ cone, bendDegrees, place }) => {
      const says = `cone ${cone} ${inShort[witnessReads(bendDegrees)]}`;
      const repeated = witness.filter((other) => other.cone === cone).length > 1;
      return repeated && place !== "" ? `${says} (${place})` : says;
    })
    .join(", ");

/** "Bisque", or "Glaze, oxidation". */
export const kindWords = ({ kind }: Pick<Firing, "kind">): string =>
  kind === "bisque" ? "Bisque" : `Glaze, ${kind}`;

/** Hours as a clock on the wall would tell them: 4.5 is "4 h 30 min". */
export function hoursInWords(hours: number): string {
  const minutes = Math.round(hours * 60);
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
