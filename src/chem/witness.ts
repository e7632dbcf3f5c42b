/** What a witness cone says of its own cone: the kiln fell short of it, came to it, or went over. */
export type WitnessReading = "not-reached" | "reached" | "past";

/** Bent this far from upright, a cone counts as down. */
export const downFromDegrees = 60;

/** Bent further than this, it went down well before the firing ended. */
export const pastAboveDegrees = 120;

/**
 * Reads a witness cone by how far it bent from upright: 0 where it did not move, 90 where its tip is
 * level with its base. Common practice, with no source that states the angles. Worked number: a cone
 * bent by 90° was reached.
 */
export function witnessReads(bendDegrees: number): WitnessReading {
  if (bendDegrees < downFromDegrees) return "not-reached";
  return bendDegrees <= pastAboveDegrees ? "reached" : "past";
}
