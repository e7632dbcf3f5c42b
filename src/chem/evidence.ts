import type { Use } from "./chemistry-types.ts";
import { type Cone, compareCones } from "./cones.ts";
import { mostAbsorption, testsForFunctional, unsoundDefects } from "./rules-evidence.ts";
import { witnessReads } from "./witness.ts";

/** What a revision claims, with what its chemistry asks for; `leachElements` null where no engine said yet. */
export type Claim = {
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  stops: number;
  leachElements: readonly string[] | null;
};

/** A tile of the melt that is not withdrawn. `body` and `firing` are null where none is on record. */
export type TileEvidence = {
  id: string;
  cone: Cone;
  atmosphere: string;
  defects: readonly string[];
  /** Over another glaze: it speaks for the pair alone. */
  layered: boolean;
  body: {
    name: string;
    absorptionPercent: number | null;
    cones: { low: Cone; high: Cone };
  } | null;
  firing: { kind: string; witness: readonly { cone: Cone; bendDegrees: number }[] } | null;
};

/** A test of the melt that is not withdrawn; fired as its tile was, or as its revision claims. */
export type TestEvidence = {
  id: string;
  kind: string;
  outcome: "passed" | "failed" | "unclear";
  tileId: string | null;
  layered: boolean;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  /** Elements that a leach report has figures for. */
  elements: readonly string[];
};

/** One thing that stands between a revision and "functional". */
export type Gap = { code: string; says: string };

/**
 * What is missing before a revision can be approved as functional; none where nothing is. Tiles and
 * tests are those of its melt, whichever recipe they were made for. Who approves is not judged here.
 *
 * Worked number: cones 5 to 6 with one sound tile at cone 6 and nothing else lacks four things: a
 * tile at cone 5, and the acid, alkali and dishwasher tests.
 *
 * Source: common practice, no source; the bounds are in rules-evidence.ts.
 */
export function missingForFunctional(
  claim: Claim,
  tiles: readonly TileEvidence[],
  tests: readonly TestEvidence[],
): Gap[] {
  const near = tiles.filter((tile) => !tile.layered && isWithin(claim, tile));
  const sound = near.filter((tile) => whyTileDoesNotCount(tile) === null);
  const soundIds = new Set(sound.map(({ id }) => id));
  const onSound = tests.filter(
    ({ tileId, outcome }) => outcome === "passed" && tileId !== null && soundIds.has(tileId),
  );
  return [
    ...ofTheRevision(claim),
    ...ofTheTiles(claim, near, sound),
    ...testsForFunctional.flatMap((kind) =>
      onSound.some((test) => test.kind === kind)
        ? []
        : [{ code: kind, says: `No ${kind} test was passed on a tile that counts.` }],
    ),
    ...ofFailedTests(claim, tests),
    ...ofLeaching(claim, onSound),
  ];
}

function ofTheRevision({ use, stops }: Claim): Gap[] {
  const decorative = {
    code: "use",
    says: "The revision says decorative only: publish it as functional first.",
  };
  const stopped = {
    code: "stop",
    says: "The screen found what bars a glaze from food. Read it under the answer above.",
  };
  return [...(use === "functional" ? [] : [decorative]), ...(stops > 0 ? [stopped] : [])];
}

function ofTheTiles({ cones }: Claim, near: TileEvidence[], sound: TileEvidence[]): Gap[] {
  const ends = [
    { code: "tile-low", cone: cones.low },
    ...(cones.high === cones.low ? [] : [{ code: "tile-high", cone: cones.high }]),
  ].filter(({ cone }) => !sound.some((tile) => tile.cone === cone));
  const gaps = ends.map(({ code, cone }) => ({ code, says: noTileAt(cone, near) }));
  const unsound = near.filter((tile) => isUnsound(tile) && bodyFits(tile) !== false);
  if (unsound.length === 0) return gaps;
  const found = [...new Set(unsound.flatMap(({ defects }) => defects.filter(isUnsoundDefect)))];
  const says = `A tile between these cones shows ${found.join(" and ")}. Functional needs none that does.`;
  return [...gaps, { code: "unsound-tile", says }];
}

function noTileAt(cone: Cone, near: readonly TileEvidence[]): string {
  const there = near.filter((tile) => tile.cone === cone);
  if (there.length === 0) return `No tile was fired at cone ${cone}.`;
  const whys = [...new Set(there.map(whyTileDoesNotCount))].join(" ");
  return `No tile at cone ${cone} counts. ${whys}`;
}

/** Why a tile is no evidence for functional ware, in a sentence; null where it is. */
export function whyTileDoesNotCount(tile: TileEvidence): string | null {
  const { body, cone, firing } = tile;
  if (tile.layered) return "It lies over another glaze and speaks for that pair alone.";
  if (isUnsound(tile)) return `It shows ${tile.defects.filter(isUnsoundDefect).join(" and ")}.`;
  if (!firing) return "It names no firing, so no witness cone stands for it.";
  if (firing.kind !== tile.atmosphere) return `Its firing was ${firing.kind}.`;
  const reached = firing.witness.some(
    (witness) => witness.cone === cone && witnessReads(witness.bendDegrees) === "reached",
  );
  if (!reached) return `No witness cone ${cone} in its firing came down.`;
  if (!body) return "It names no body, so its absorption is not known.";
  if (body.absorptionPercent === null) return `No absorption of ${body.name} is on record.`;
  if (body.absorptionPercent >= mostAbsorption)
    return `${body.name} absorbs ${body.absorptionPercent} %; it has to be under ${mostAbsorption} %.`;
  if (!bodyFits(tile)) return `Cone ${cone} is outside the cones of ${body.name}.`;
  return null;
}

/** Whether the body is dense enough and within its own cones; null where that is not known. */
function bodyFits({ body, cone }: TileEvidence): boolean | null {
  if (!body) return null;
  const within = isBetween(cone, body.cones);
  if (body.absorptionPercent === null) return within ? null : false;
  return within && body.absorptionPercent < mostAbsorption;
}

const isUnsound = ({ defects }: TileEvidence): boolean => defects.some(isUnsoundDefect);

const isUnsoundDefect = (defect: string): boolean => unsoundDefects.includes(defect);

function ofFailedTests(claim: Claim, tests: readonly TestEvidence[]): Gap[] {
  const kinds = new Set(contradicting(claim, tests).map(({ kind }) => kind));
  return kinds.size === 0
    ? []
    : [{ code: "failed-test", says: `A test failed and stands: ${[...kinds].join(", ")}.` }];
}

/** Tests that failed on this melt as the revision says it is fired. */
export const contradicting = <Test extends TestEvidence>(
  { cones, atmosphere }: Pick<Claim, "cones" | "atmosphere">,
  tests: readonly Test[],
): Test[] =>
  tests.filter(
    (test) =>
      test.outcome === "failed" &&
      !test.layered &&
      test.atmosphere === atmosphere &&
      compareCones(test.cones.high, cones.low) >= 0 &&
      compareCones(test.cones.low, cones.high) <= 0,
  );

function ofLeaching({ leachElements }: Claim, onSound: readonly TestEvidence[]): Gap[] {
  if (leachElements === null) {
    const says = "Its chemistry has to be worked out anew before it can be judged.";
    return [{ code: "leach-unknown", says }];
  }
  const reported = new Set(
    onSound.filter(({ kind }) => kind === "leach").flatMap(({ elements }) => elements),
  );
  return leachElements
    .filter((element) => !reported.has(element))
    .map((element) => ({
      code: `leach-${element}`,
      says: `No laboratory's leach report for ${element} on a tile that counts.`,
    }));
}

const isWithin = ({ cones, atmosphere }: Claim, tile: TileEvidence): boolean =>
  tile.atmosphere === atmosphere && isBetween(tile.cone, cones);

const isBetween = (cone: Cone, { low, high }: { low: Cone; high: Cone }): boolean =>
  compareCones(low, cone) <= 0 && compareCones(cone, high) <= 0;
