import { type Cone, compareCones } from "./cones.ts";
import {
  type Claim,
  type Gap,
  missingForFunctional,
  type TestEvidence,
  type TileEvidence,
} from "./evidence.ts";

/** One of the two glazes of a pair, as it is called. */
export type PairedClaim = Claim & { name: string };

/**
 * The cones at which a pair can be fired: those that both glazes claim; null where there is none.
 * Worked example: 5 to 6 over 6 to 8 is cone 6 alone.
 */
export function sharedCones(
  over: Pick<Claim, "cones">,
  under: Pick<Claim, "cones">,
): { low: Cone; high: Cone } | null {
  const low = compareCones(over.cones.low, under.cones.low) >= 0 ? over.cones.low : under.cones.low;
  const high =
    compareCones(over.cones.high, under.cones.high) <= 0 ? over.cones.high : under.cones.high;
  return compareCones(low, high) <= 0 ? { low, high } : null;
}

/**
 * What is missing before a layered pair can be approved as functional. Neither glaze's own evidence
 * says anything of the two together: tiles and tests are those of the pair, on the cones that both
 * claim, and a leach report has every element that either glaze asks for.
 *
 * Source: common practice, no source, as for one glaze alone.
 */
export function missingForPair(
  over: PairedClaim,
  under: PairedClaim,
  tiles: readonly TileEvidence[],
  tests: readonly TestEvidence[],
): Gap[] {
  const ofEach = [over, under].flatMap(ofOne);
  const cones = sharedCones(over, under);
  if (over.atmosphere !== under.atmosphere) {
    const says = `${over.name} is fired in ${over.atmosphere} and ${under.name} in ${under.atmosphere}: no one firing is meant for both.`;
    return [...ofEach, { code: "atmosphere", says }];
  }
  if (!cones) {
    const says = `No cone is claimed by both ${over.name} and ${under.name}.`;
    return [...ofEach, { code: "cones", says }];
  }
  const together: Claim = {
    use: "functional",
    cones,
    atmosphere: over.atmosphere,
    stops: 0,
    leachElements: ofBoth(over.leachElements, under.leachElements),
  };
  return [...ofEach, ...missingForFunctional(together, tiles.map(alone), tests.map(alone))];
}

function ofOne({ name, use, stops }: PairedClaim): Gap[] {
  const decorative = { code: "use", says: `${name} says decorative only.` };
  const stopped = { code: "stop", says: `The screen found what bars ${name} from food.` };
  return [...(use === "functional" ? [] : [decorative]), ...(stops > 0 ? [stopped] : [])];
}

const ofBoth = (one: Claim["leachElements"], other: Claim["leachElements"]) =>
  one && other && [...new Set([...one, ...other])];

/** Of the pair's own evidence nothing lies over anything else. */
const alone = <Found extends { layered: boolean }>(found: Found): Found => ({
  ...found,
  layered: false,
});
