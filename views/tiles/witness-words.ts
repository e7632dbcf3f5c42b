import type { Cone } from "../../src/chem/cones.ts";
import { type WitnessReading, witnessReads } from "../../src/chem/witness.ts";

export type ShownFiring = {
  id: string;
  kiln: { slug: string; name: string };
  startedAt: Date;
  witness: readonly { cone: Cone; bendDegrees: number; place: string }[];
  /** Why the firing was taken back, where it was: its cones witness nothing. */
  withdrawnWhy: string | null;
};

const read: Readonly<Record<WitnessReading, string>> = {
  reached: "down",
  past: "well past down",
  "not-reached": "still up",
};

/** What the witness cone of the tile's own cone did in its firing, shortly: "witness cone 6". */
export function witnessInShort(cone: Cone, { witness, withdrawnWhy }: ShownFiring): string {
  if (withdrawnWhy !== null) return "its firing was withdrawn";
  const readings = witness
    .filter((stood) => stood.cone === cone)
    .map(({ bendDegrees }) => witnessReads(bendDegrees));
  const [first] = readings;
  if (first === undefined) return `no witness cone ${cone} beside it`;
  if (readings.includes("reached")) return `witness cone ${cone}`;
  return `witness cone ${cone} ${read[first]}`;
}

/** A witness cone in full: "cone 6 bent 90°: down, top shelf". */
export const witnessInFull = ({
  cone,
  bendDegrees,
  place,
}: ShownFiring["witness"][number]): string =>
  `cone ${cone} bent ${bendDegrees}°: ${read[witnessReads(bendDegrees)]}${place === "" ? "" : `, ${place}`}`;
