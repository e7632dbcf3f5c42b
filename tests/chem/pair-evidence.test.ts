import { describe, expect, it } from "vitest";
import type { Cone } from "../../src/chem/cones.ts";
import type { TestEvidence, TileEvidence } from "../../src/chem/evidence.ts";
import { missingForPair, type PairedClaim, sharedCones } from "../../src/chem/pair-evidence.ts";

const glaze = (name: string, more: Partial<PairedClaim> = {}): PairedClaim => ({
  name,
  use: "functional",
  cones: { low: "6", high: "6" },
  atmosphere: "oxidation",
  stops: 0,
  leachElements: [],
  ...more,
});

const tile = (cone: Cone, more: Partial<TileEvidence> = {}): TileEvidence => ({
  id: `tile ${cone}`,
  cone,
  atmosphere: "oxidation",
  defects: [],
  layered: true,
  body: { name: "Loft stoneware", absorptionPercent: 1.8, cones: { low: "5", high: "7" } },
  firing: { kind: "oxidation", witness: [{ cone, bendDegrees: 90 }] },
  ...more,
});

const test = (kind: string, more: Partial<TestEvidence> = {}): TestEvidence => ({
  id: kind,
  kind,
  outcome: "passed",
  tileId: "tile 6",
  layered: true,
  cones: { low: "6", high: "6" },
  atmosphere: "oxidation",
  elements: [],
  ...more,
});

const washed = ["acid", "alkali", "dishwasher"].map((kind) => test(kind));
const over = glaze("Arctic Tern");
const under = glaze("Black Tern");

describe("what a layered pair lacks as functional ware", () => {
  it.each<[string, PairedClaim, PairedClaim, TileEvidence[], TestEvidence[], string[]]>([
    ["nothing with all on a tile of the pair", over, under, [tile("6")], washed, []],
    [
      "everything without a tile",
      over,
      under,
      [],
      [],
      ["tile-low", "acid", "alkali", "dishwasher"],
    ],
    [
      "one glaze is decorative",
      over,
      glaze("Haar", { use: "decorative" }),
      [tile("6")],
      washed,
      ["use"],
    ],
    ["one glaze has a stop", glaze("Haar", { stops: 1 }), under, [tile("6")], washed, ["stop"]],
    [
      "the tile crazed",
      over,
      under,
      [tile("6", { defects: ["crazing"] })],
      [],
      [...["tile-low", "unsound-tile", "acid", "alkali", "dishwasher"]],
    ],
    [
      "no firing suits both",
      over,
      glaze("Haar", { atmosphere: "reduction" }),
      [],
      [],
      ["atmosphere"],
    ],
    [
      "no cone suits both",
      over,
      glaze("Haar", { cones: { low: "04", high: "02" } }),
      [],
      [],
      ["cones"],
    ],
    [
      "a leach report for what either asks for",
      glaze("Ebb Green", { leachElements: ["Cu"] }),
      glaze("Haar", { leachElements: ["Ba", "Cu"] }),
      [tile("6")],
      [...washed, test("leach", { elements: ["Cu"] })],
      ["leach-Ba"],
    ],
    [
      "a chemistry not worked out",
      glaze("Haar", { leachElements: null }),
      under,
      [tile("6")],
      washed,
      ["leach-unknown"],
    ],
    [
      "a test that failed",
      over,
      under,
      [tile("6")],
      [...washed, test("acid", { outcome: "failed" })],
      ["failed-test"],
    ],
    [
      "both ends of the cones that they share",
      glaze("Arctic Tern", { cones: { low: "5", high: "7" } }),
      glaze("Black Tern", { cones: { low: "4", high: "6" } }),
      [tile("6")],
      washed,
      ["tile-low"],
    ],
  ])("lacks %s", (_, one, other, tiles, tests, codes) => {
    expect(missingForPair(one, other, tiles, tests).map(({ code }) => code)).toEqual(codes);
  });

  it("is fired at the cones that both claim", () => {
    const at = (low: Cone, high: Cone) => ({ cones: { low, high } });
    expect(sharedCones(at("5", "6"), at("6", "8"))).toEqual({ low: "6", high: "6" });
    expect(sharedCones(at("04", "6"), at("02", "4"))).toEqual({ low: "02", high: "4" });
    expect(sharedCones(at("04", "02"), at("4", "6"))).toBeNull();
  });
});
