import { describe, expect, it } from "vitest";
import {
  type Claim,
  missingForFunctional,
  type TestEvidence,
  type TileEvidence,
  whyTileDoesNotCount,
} from "../../src/chem/evidence.ts";

// What functional ware needs is common practice, no source: these check that each lack is found.

const claim: Claim = {
  use: "functional",
  cones: { low: "5", high: "6" },
  atmosphere: "oxidation",
  stops: 0,
  leachElements: [],
};

const tile = (id: string, different: Partial<TileEvidence> = {}): TileEvidence => ({
  id,
  cone: "6",
  atmosphere: "oxidation",
  defects: [],
  layered: false,
  body: { name: "Loft stoneware", absorptionPercent: 1.8, cones: { low: "5", high: "7" } },
  firing: {
    kind: "oxidation",
    witness: [
      { cone: "5", bendDegrees: 90 },
      { cone: "6", bendDegrees: 90 },
    ],
  },
  ...different,
});

const test = (
  kind: string,
  tileId: string | null,
  different: Partial<TestEvidence> = {},
): TestEvidence => ({
  id: `${kind}-${tileId}`,
  kind,
  outcome: "passed",
  tileId,
  layered: false,
  cones: { low: "6", high: "6" },
  atmosphere: "oxidation",
  elements: [],
  ...different,
});

const tiles = [tile("low", { cone: "5" }), tile("high")];
const tests = [test("acid", "high"), test("alkali", "low"), test("dishwasher", "high")];

const codes = (given: Partial<Claim>, withTiles = tiles, withTests = tests): string[] =>
  missingForFunctional({ ...claim, ...given }, withTiles, withTests).map(({ code }) => code);

describe("what functional ware lacks", () => {
  it("is nothing with tiles at both ends and the tests passed on them", () => {
    expect(codes({})).toEqual([]);
  });

  it("is all of it where nothing was fired", () => {
    expect(codes({}, [], [])).toEqual(["tile-low", "tile-high", "acid", "alkali", "dishwasher"]);
  });

  it("needs one tile where the ends are equal", () => {
    expect(codes({ cones: { low: "6", high: "6" } }, [tile("high")], tests.slice(0, 1))).toEqual([
      "alkali",
      "dishwasher",
    ]);
  });

  it.each<[string, Partial<Claim>, string[]]>([
    ["a decorative revision", { use: "decorative" }, ["use"]],
    ["a stop", { stops: 1 }, ["stop"]],
    ["no leach report", { leachElements: ["Ba", "Pb"] }, ["leach-Ba", "leach-Pb"]],
    ["an engine that said nothing of leaching", { leachElements: null }, ["leach-unknown"]],
    [
      "tiles of another atmosphere",
      { atmosphere: "reduction" },
      ["tile-low", "tile-high", "acid", "alkali", "dishwasher"],
    ],
  ])("finds %s", (_, given, expected) => {
    expect(codes(given)).toEqual(expected);
  });

  it("takes a laboratory's report of the elements that it names", () => {
    const report = test("leach", "high", { elements: ["Ba"] });
    expect(codes({ leachElements: ["Ba", "Pb"] }, tiles, [...tests, report])).toEqual(["leach-Pb"]);
  });

  it("lets no home acid test stand in for a leach report", () => {
    const home = test("acid", "high", { elements: ["Ba"] });
    expect(codes({ leachElements: ["Ba"] }, tiles, [...tests, home])).toEqual(["leach-Ba"]);
  });

  it("counts no test that was made on no tile, or on one that does not count", () => {
    expect(codes({}, tiles, [...tests.slice(1), test("acid", null)])).toEqual(["acid"]);
    const crazedElsewhere = tile("porous", {
      defects: ["crazing"],
      body: { name: "Raku clay", absorptionPercent: 9, cones: { low: "5", high: "6" } },
    });
    expect(
      codes({}, [...tiles, crazedElsewhere], [...tests.slice(1), test("acid", "porous")]),
    ).toEqual(["acid"]);
  });

  it("needs none of the tiles between its cones crazed, even where others are sound", () => {
    expect(codes({}, [...tiles, tile("third", { defects: ["crazing"] })])).toEqual([
      "unsound-tile",
    ]);
  });

  it("lets a failed test stand in the way until it is withdrawn", () => {
    const failed = test("acid", "high", { outcome: "failed" });
    expect(codes({}, tiles, [...tests, failed])).toEqual(["failed-test"]);
    const elsewhere = { ...failed, cones: { low: "8", high: "8" } as const };
    expect(codes({}, tiles, [...tests, elsewhere])).toEqual([]);
  });
});

describe("a tile", () => {
  it.each<[string, Partial<TileEvidence>, RegExp | null]>([
    ["counts as it is", {}, null],
    ["under a witness cone just down", witness(60), null],
    ["under a witness cone that hardly moved", witness(59), /No witness cone 6/],
    ["under a witness cone far gone", witness(121), /No witness cone 6/],
    ["of no firing", { firing: null }, /no firing/],
    ["of a bisque firing", { firing: { kind: "bisque", witness: [] } }, /was bisque/],
    ["on no body", { body: null }, /no body/],
    ["on a body of unknown absorption", body(null), /No absorption of Loft stoneware/],
    ["on a body at 3 %", body(3), /absorbs 3 %/],
    ["on a body just under", body(2.999), null],
    ["outside the body's cones", { cone: "8", ...witness(90, "8") }, /outside the cones/],
    ["that crazed", { defects: ["crazing"] }, /shows crazing/],
    ["that pinholed, which is no bar", { defects: ["pinholing"] }, null],
    ["over another glaze", { layered: true }, /that pair alone/],
  ])("%s", (_, different, why) => {
    const said = whyTileDoesNotCount(tile("x", different));
    if (why === null) expect(said).toBeNull();
    else expect(said).toMatch(why);
  });
});

function witness(bendDegrees: number, cone: "6" | "8" = "6"): Partial<TileEvidence> {
  return { firing: { kind: "oxidation", witness: [{ cone, bendDegrees }] } };
}

function body(absorptionPercent: number | null): Partial<TileEvidence> {
  return { body: { name: "Loft stoneware", absorptionPercent, cones: { low: "5", high: "7" } } };
}
