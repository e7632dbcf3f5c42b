import { type Cone, cones } from "./cones.ts";
import { witnessReads } from "./witness.ts";

/** A tile of the melt by itself that still counts. */
export type FiredTile = {
  cone: Cone;
  atmosphere: string;
  /** The body that it is on, or what was said of the clay; empty where nothing was. */
  body: string;
  defects: readonly string[];
  witness: readonly { cone: Cone; bendDegrees: number }[];
};

/** What was fired at one cone. */
export type ConeTested = {
  cone: Cone;
  /** The recipe says that it works here. */
  claimed: boolean;
  bodies: { name: string; tiles: number }[];
  tiles: number;
  /** How many of them had this witness cone go down beside them; of the others it is only said. */
  witnessed: number;
  /** How many came out without a defect. */
  sound: number;
  defects: string[];
};

export type ConesTested = {
  cones: ConeTested[];
  /** Where the tiles do not bear out the claim, or each other, in sentences. */
  disagreements: string[];
  /** Tiles that were fired in another atmosphere than the recipe's, which are counted nowhere. */
  otherAtmosphere: number;
};

type Claim = { cones: { low: Cone; high: Cone }; atmosphere: string };

/**
 * The cones that a recipe claims to work at beside those it was fired at, coolest first. Both claimed
 * ends are among them, fired or not.
 *
 * Worked example: a claim of cones 5 to 6 and one crazed tile at 6 disagrees twice: nothing was fired
 * at cone 5, and the only tile at cone 6 has a defect.
 */
export function conesTested(claim: Claim, fired: readonly FiredTile[]): ConesTested {
  const counted = fired.filter(({ atmosphere }) => atmosphere === claim.atmosphere);
  const { low, high } = claim.cones;
  const seen = new Set<Cone>([low, high, ...counted.map(({ cone }) => cone)]);
  const tested = cones
    .filter((cone) => seen.has(cone))
    .map((cone) =>
      testedAt(
        cone,
        counted.filter((tile) => tile.cone === cone),
        isBetween(cone, claim.cones),
      ),
    );
  return {
    cones: tested,
    disagreements: tested.flatMap((at) => disagreement(at, at.cone === low || at.cone === high)),
    otherAtmosphere: fired.length - counted.length,
  };
}

const isBetween = (cone: Cone, { low, high }: Claim["cones"]): boolean =>
  cones.indexOf(low) <= cones.indexOf(cone) && cones.indexOf(cone) <= cones.indexOf(high);

function testedAt(cone: Cone, tiles: readonly FiredTile[], claimed: boolean): ConeTested {
  const names = [...new Set(tiles.map(({ body }) => body))];
  return {
    cone,
    claimed,
    bodies: names.map((name) => ({
      name,
      tiles: tiles.filter(({ body }) => body === name).length,
    })),
    tiles: tiles.length,
    witnessed: tiles.filter(isWitnessed).length,
    sound: tiles.filter(({ defects }) => defects.length === 0).length,
    defects: [...new Set(tiles.flatMap(({ defects }) => defects))],
  };
}

const isWitnessed = ({ cone, witness }: FiredTile): boolean =>
  witness.some((stood) => stood.cone === cone && witnessReads(stood.bendDegrees) === "reached");

function disagreement(at: ConeTested, isEnd: boolean): string[] {
  const { cone, tiles, sound, defects } = at;
  const found = defects.join(", ");
  if (tiles === 0)
    return isEnd ? [`The recipe claims cone ${cone}, and no tile was fired there.`] : [];
  if (sound === 0) {
    const all = tiles === 1 ? "the only tile there shows" : "every tile there shows a defect:";
    if (!at.claimed) return [];
    return [`The recipe claims cone ${cone}, and ${all} ${found}.`];
  }
  if (sound === tiles) return [];
  const mixed = `${sound} of ${tiles} tiles came out sound, and others show ${found}.`;
  return [`At cone ${cone} the tiles disagree: ${mixed}`];
}
