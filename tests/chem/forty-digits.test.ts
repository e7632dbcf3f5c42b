import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { workOut } from "../../src/chem/chemistry.ts";
import { eightLines } from "../reference/shelf.ts";
import { expectAgreement } from "./agreement.ts";
import { requestArbitrary } from "./generated-recipes.ts";
import { seededRecipes } from "./seeded-recipes.ts";

describe("float64 against forty digits", () => {
  it("agrees to 1e-12 for recipes looked for at the edges, ± and all conventions included", () => {
    fc.assert(
      fc.property(requestArbitrary, (request) => expectAgreement(request)),
      {
        numRuns: 60,
      },
    );
  }, 120_000);

  it("agrees to 1e-12 with its ± for a thousand recipes", () => {
    for (const request of seededRecipes(1_912, 1_000)) expectAgreement(request);
  }, 120_000);

  it("agrees to 1e-12 in value for ten thousand recipes", () => {
    for (const request of seededRecipes(1_886, 10_000))
      expectAgreement(request, { plusMinus: false });
  }, 120_000);

  it("meets every model of expansion often among them, and where it has no answer", () => {
    const answered = new Map<string, number>();
    for (const request of seededRecipes(1_886, 1_000)) {
      for (const { model, value } of workOut(request).expansion)
        if (value !== null) answered.set(model, (answered.get(model) ?? 0) + 1);
    }
    expect(answered.size).toBe(5);
    for (const times of answered.values()) {
      expect(times).toBeGreaterThan(50);
      expect(times).toBeLessThan(950);
    }
  });

  it("agrees for the glaze of the bench", () => expectAgreement({ lines: eightLines() }));
});
