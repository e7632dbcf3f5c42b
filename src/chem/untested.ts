import { type Cone, compareCones } from "./cones.ts";
import { witnessReads } from "./witness.ts";

type Fired = {
  cone: Cone;
  atmosphere: string;
  layered: boolean;
  firing: {
    witness: readonly { cone: Cone; bendDegrees: number }[];
    withdrawnWhy: string | null;
  } | null;
};

type Tested = {
  kind: string;
  tile: { layered: boolean } | "unknown" | null;
  results: readonly { element: string }[];
};

/**
 * What nobody has tried of a glaze alone, in the trade's words: kinds of test that are not on record,
 * ends of its cones without a tile that a witness cone stands for, and elements of the leach list
 * without a laboratory's figure. A layered tile speaks for its pair.
 *
 * Worked example: cones 5 to 6 with one witnessed tile at 6 and an acid test lack the other kinds and
 * "a tile at cone 5 with its witness cone".
 */
export function untestedOf(
  claim: { cones: { low: Cone; high: Cone }; atmosphere: string; leachElements: readonly string[] },
  {
    tiles,
    tests,
    kinds,
  }: {
    tiles: readonly Fired[];
    tests: readonly Tested[];
    kinds: readonly string[];
  },
): string[] {
  const alone = tests.filter(({ tile }) => !(tile && tile !== "unknown" && tile.layered));
  const { low, high } = claim.cones;
  const ends = compareCones(low, high) === 0 ? [low] : [low, high];
  const figures = new Set(
    alone.filter(({ kind }) => kind === "leach").flatMap((test) => test.results.map(elementOf)),
  );
  return [
    ...kinds.filter((kind) => !alone.some((test) => test.kind === kind)),
    ...claim.leachElements
      .filter((element) => !figures.has(element))
      .map((element) => `how much ${element} leaches from it, by a laboratory`),
    ...ends
      .filter((cone) => !tiles.some((tile) => isWitnessed(tile, cone, claim.atmosphere)))
      .map((cone) => `a tile at cone ${cone} with its witness cone`),
  ];
}

const elementOf = ({ element }: { element: string }): string => element;

const isWitnessed = (tile: Fired, cone: Cone, atmosphere: string): boolean =>
  !tile.layered &&
  tile.cone === cone &&
  tile.atmosphere === atmosphere &&
  tile.firing !== null &&
  tile.firing.withdrawnWhy === null &&
  tile.firing.witness.some(
    (stood) => stood.cone === cone && witnessReads(stood.bendDegrees) === "reached",
  );
