import { describe, expect, it } from "vitest";
import type { Cone } from "../../src/chem/cones.ts";
import { conesTested, type FiredTile } from "../../src/chem/cones-tested.ts";

const fired = (cone: Cone, more: Partial<FiredTile> = {}): FiredTile => ({
  cone,
  atmosphere: "oxidation",
  body: "Loft stoneware",
  defects: [],
  witness: [],
  ...more,
});
const crazed = (cone: Cone) => fired(cone, { defects: ["crazing"] });
const claim = (low: Cone, high: Cone) => ({ cones: { low, high }, atmosphere: "oxidation" });

describe("the cones that a recipe works at", () => {
  it.each<[string, Cone, Cone, FiredTile[], RegExp[]]>([
    ["nothing was fired", "5", "6", [], [/claims cone 5, and no/, /claims cone 6, and no/]],
    ["one end was not fired", "5", "6", [fired("6")], [/claims cone 5, and no/]],
    ["both ends are sound", "5", "6", [fired("5"), fired("6")], []],
    ["nothing was fired between the ends", "4", "6", [fired("4"), fired("6")], []],
    [
      "an end has a crazed tile only",
      "6",
      "6",
      [crazed("6")],
      [/the only tile there shows crazing/],
    ],
    ["an end has crazed tiles only", "6", "6", [crazed("6"), crazed("6")], [/every tile there/]],
    [
      "between the ends it crazed",
      "4",
      "6",
      [fired("4"), crazed("5"), fired("6")],
      [/claims cone 5/],
    ],
    ["one is sound and one crazed", "6", "6", [fired("6"), crazed("6")], [/cone 6 .*1 of 2/]],
    ["it crazed outside the claim", "6", "6", [fired("6"), crazed("8")], []],
    ["04 was fired and 4 is claimed", "4", "4", [fired("04")], [/claims cone 4, and no/]],
  ])("says where the evidence disagrees: %s", (_, low, high, tiles, says) => {
    const { disagreements } = conesTested(claim(low, high), tiles);
    expect(disagreements).toHaveLength(says.length);
    for (const [place, words] of says.entries()) expect(disagreements[place]).toMatch(words);
  });

  it("counts tiles by body, and which of them a witness cone stands for", () => {
    const down = { witness: [{ cone: "6" as const, bendDegrees: 90 }] };
    const up = { witness: [{ cone: "6" as const, bendDegrees: 20 }] };
    const other = { witness: [{ cone: "5" as const, bendDegrees: 90 }] };
    const tiles = [
      fired("6", down),
      fired("6", { ...up, body: "Heron porcelain" }),
      fired("6", other),
      fired("04", { body: "" }),
    ];
    const tested = conesTested(claim("6", "6"), tiles).cones;
    expect(tested.map(({ cone, claimed }) => [cone, claimed])).toEqual([
      ["04", false],
      ["6", true],
    ]);
    expect(tested[1]).toMatchObject({ tiles: 3, witnessed: 1, sound: 3, defects: [] });
    expect(tested[1]?.bodies).toEqual([
      { name: "Loft stoneware", tiles: 2 },
      { name: "Heron porcelain", tiles: 1 },
    ]);
  });

  it("leaves out what was fired in another atmosphere, and says how much that is", () => {
    const found = conesTested(claim("6", "6"), [fired("6", { atmosphere: "reduction" })]);
    expect(found.otherAtmosphere).toBe(1);
    expect(found.cones.map(({ tiles }) => tiles)).toEqual([0]);
  });
});
