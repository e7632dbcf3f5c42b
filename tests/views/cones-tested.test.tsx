import { describe, expect, it } from "vitest";
import type { Cone } from "../../src/chem/cones.ts";
import { conesTested } from "../../src/chem/cones-tested.ts";
import { ConesFired } from "../../views/recipes/cones-tested.tsx";

const fired = (cone: Cone, body: string, defects: string[] = [], bendDegrees = 90) => ({
  cone,
  atmosphere: "oxidation",
  body,
  defects,
  witness: [{ cone, bendDegrees }],
});
const claim = { cones: { low: "5", high: "6" }, atmosphere: "oxidation" } as const;
const shown = (...tiles: ReturnType<typeof fired>[]) =>
  String(<ConesFired found={conesTested(claim, tiles)} atmosphere="oxidation" />);

describe("the cones under “how to fire it”", () => {
  it("says on which bodies, and by what the cone is known", () => {
    const page = shown(
      fired("6", "Loft stoneware"),
      fired("6", "Loft stoneware", [], 10),
      fired("6", "Heron porcelain"),
      fired("5", ""),
    );
    expect(page).toContain(
      "3 tiles (2 on Loft stoneware, 1 on Heron porcelain), 2 by witness cone and 1 only said, no defect.",
    );
    expect(page).toContain("1 tile on a clay that is not said, by its witness cone, no defect.");
    expect(page).not.toContain("disagree");
  });

  it("says in words where claim and tiles disagree", () => {
    const page = shown(fired("6", "Heron porcelain", ["crazing"]));
    expect(page.match(/Claim and tiles disagree\./g)).toHaveLength(2);
    expect(page).toContain("no tile was fired there");
    expect(page).toContain("the only tile there shows crazing");
  });
});
