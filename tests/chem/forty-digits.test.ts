import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { workOut } from "../../src/chem/chemistry.ts";
import { type Exact, fortyDigits } from "../reference/forty-digits.ts";
import { eightLines } from "../reference/shelf.ts";
import { requestArbitrary } from "./generated-recipes.ts";
import { expectSame } from "./quantities.ts";

const rounded = (exact: Exact | null | undefined) =>
  exact ? { value: exact.value.toNumber(), plusMinus: exact.plusMinus.toNumber() } : undefined;

function expectAgreement(request: Parameters<typeof workOut>[0]): void {
  const answer = workOut(request);
  const exact = fortyDigits(request);
  expectSame(answer.lossOnIgnition, rounded(exact.loss), "loss");
  if (answer.unaccounted) expectSame(answer.unaccounted, rounded(exact.unaccounted), "unaccounted");
  else expect(Math.abs(exact.unaccounted.value.toNumber())).toBeLessThan(1e-9);
  expectSame(answer.ratios.silicaToAlumina ?? undefined, rounded(exact.silicaToAlumina), "ratio");
  expectSame(answer.ratios.alkaliShare ?? undefined, rounded(exact.alkaliShare), "alkali share");
  expect(answer.unity === null).toBe(exact.unity === null);
  for (const [here, there] of [
    [answer.weightPercent, exact.weight],
    [answer.molePercent, exact.mole],
    [answer.unity ?? {}, exact.unity ?? {}],
  ] as const) {
    expect(Object.keys(here).sort()).toEqual(Object.keys(there).sort());
    for (const [oxide, quantity] of Object.entries(here))
      expectSame(quantity, rounded(there[oxide]), oxide);
  }
}

describe("float64 against forty digits", () => {
  // Six times fifty, so that a slow machine has time for each.
  it.each([1, 2, 3, 4, 5, 6])(
    "agrees to 1e-12 for fifty generated recipes, ± and all conventions included (%d)",
    () => fc.assert(fc.property(requestArbitrary, expectAgreement), { numRuns: 50 }),
    120_000,
  );

  it("agrees for the glaze of the bench", () => expectAgreement({ lines: eightLines() }));
});
