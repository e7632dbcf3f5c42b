import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ChemistryRequest, faultsOfRequest, workOut } from "../../src/chem/chemistry.ts";
import { fluxes, molarMass, type Oxide } from "../../src/chem/oxides.ts";
import { requestArbitrary } from "./generated-recipes.ts";
import { expectSameAnswer } from "./quantities.ts";

const sum = (values: Iterable<number>) => [...values].reduce((total, value) => total + value, 0);
const values = (set: object) => Object.values(set).map(({ value }: { value: number }) => value);
const always = (law: (request: ChemistryRequest) => void) =>
  fc.assert(fc.property(requestArbitrary, law), { numRuns: 150 });

describe("whatever the recipe", () => {
  it("has no faults as generated", () =>
    always((request) => {
      expect(faultsOfRequest(request)).toEqual([]);
    }));

  it("keeps every gram: glass, loss and what is unaccounted make 100", () => {
    always((request) => {
      const answer = workOut(request);
      const grams = Object.entries(answer.explain ?? {}).map(
        ([oxide, from]) => molarMass[oxide as Oxide] * sum(from.map(({ moles }) => moles)),
      );
      const glass = (100 * sum(grams)) / Number(answer.batch.total);
      const rest = answer.unaccounted?.value ?? 0;
      expect(glass + answer.lossOnIgnition.value + rest).toBeCloseTo(100, 8);
    });
  });

  it("gives weight and mole percent of 100, and fluxes of 1", () => {
    always((request) => {
      const { weightPercent, molePercent, unity } = workOut({ ...request, unity: "fluxes" });
      expect(sum(values(weightPercent))).toBeCloseTo(100, 9);
      expect(sum(values(molePercent))).toBeCloseTo(100, 9);
      if (unity) expect(sum(fluxes.map((oxide) => unity[oxide]?.value ?? 0))).toBeCloseTo(1, 11);
    });
  });

  it("makes the same of any batch size", () => {
    always((request) => {
      const lines = request.lines.map((line) => ({ ...line, amount: line.amount.times("3.7") }));
      expectSameAnswer(workOut({ ...request, lines }), workOut(request));
    });
  });

  it("makes the same of any order of lines", () => {
    always((request) => {
      const lines = request.lines.toReversed();
      expectSameAnswer(workOut({ ...request, lines }), workOut(request));
    });
  });

  it("makes the same of a line split in two, its ± included", () => {
    always((request) => {
      const lines = request.lines.flatMap((line) => [
        { ...line, amount: line.amount.times("0.25") },
        { ...line, amount: line.amount.times("0.75") },
      ]);
      expectSameAnswer(workOut({ ...request, lines }), workOut(request));
    });
  });

  it("shares out each oxide among its lines", () => {
    always((request) => {
      for (const from of Object.values(workOut(request).explain ?? {})) {
        expect(sum(from.map(({ share }) => share))).toBeCloseTo(1, 11);
        for (const { line } of from) expect(request.lines[line]?.analysis).not.toBeNull();
      }
    });
  });
});
