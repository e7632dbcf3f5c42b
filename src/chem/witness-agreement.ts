import { compareCones, isCone } from "./cones.ts";
import { type WitnessReading, witnessReads } from "./witness.ts";

/** A cone that stood beside the ware and fell where the readings say that it did not, or the other way. */
export type Contradiction = { cone: string; place: string; reads: WitnessReading };

/**
 * Where witness cones and an estimate from readings contradict each other: a cone that did not go
 * down though the readings reached it by more than their ± (`lower` or cooler), or one that did
 * though they fell short of it by more than that (`upper` or hotter). What lies within the ± is no
 * contradiction, and after a hold there is no `upper`.
 *
 * Worked example: cone 7 flat where the readings say cone 6, with 5 down and 7 not, contradicts.
 */
export function contradictionsOf(
  witness: readonly { cone: string; bendDegrees: number; place: string }[],
  { lower, upper }: { lower: string | null; upper: string | null },
): Contradiction[] {
  return witness.flatMap(({ cone, bendDegrees, place }) => {
    const reads = witnessReads(bendDegrees);
    const against =
      reads === "not-reached" ? atMost(cone, lower) : upper !== null && atMost(upper, cone);
    return against ? [{ cone, place, reads }] : [];
  });
}

const atMost = (cone: string, other: string | null): boolean =>
  other !== null && isCone(cone) && isCone(other) && compareCones(cone, other) <= 0;
