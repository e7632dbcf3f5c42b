import { describe, expect, it } from "vitest";
import { untestedOf } from "../../src/chem/untested.ts";

const kinds = ["acid", "alkali", "leach"];
const claim = {
  cones: { low: "5", high: "6" } as const,
  atmosphere: "oxidation",
  leachElements: ["Cu"],
};
const tile = {
  ...{ cone: "6" as const, atmosphere: "oxidation", layered: false },
  firing: { witness: [{ cone: "6" as const, bendDegrees: 90 }], withdrawnWhy: null },
};
const onTile = { tile: { layered: false }, results: [] };

describe("what was not tested", () => {
  it("is every kind, element and end of the cones that nothing stands for", () => {
    const tests = [{ kind: "acid", ...onTile }];
    expect(untestedOf(claim, { tiles: [tile], tests, kinds })).toEqual([
      "alkali",
      "leach",
      "how much Cu leaches from it, by a laboratory",
      "a tile at cone 5 with its witness cone",
    ]);
  });

  it("is not covered by a layered tile, a withdrawn firing or a cone that stayed up", () => {
    const others = [
      { ...tile, layered: true },
      { ...tile, firing: { ...tile.firing, withdrawnWhy: "It was another cone." } },
      { ...tile, firing: { ...tile.firing, witness: [{ cone: "6" as const, bendDegrees: 10 }] } },
      { ...tile, atmosphere: "reduction" },
      { ...tile, firing: null },
    ];
    const layered = [{ kind: "acid", tile: { layered: true }, results: [] }];
    const missing = untestedOf(claim, { tiles: others, tests: layered, kinds });
    expect(missing).toContain("acid");
    expect(missing).toContain("a tile at cone 6 with its witness cone");
  });

  it("is nothing where all of it was", () => {
    const tests = kinds.map((kind) => ({ kind, tile: null, results: [{ element: "Cu" }] }));
    const cones = { low: "6", high: "6" } as const;
    expect(untestedOf({ ...claim, cones }, { tiles: [tile], tests, kinds })).toEqual([]);
  });
});
