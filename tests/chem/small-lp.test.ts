import { describe, expect, it } from "vitest";
import { type SmallLp, solveSmall } from "../../src/chem/small-lp.ts";
import { randomFrom } from "./shelf-problems.ts";

const rows = (...given: [coefficients: number[], most: number][]): SmallLp["rows"] =>
  given.map(([coefficients, most]) => ({ coefficients, most }));

describe("the small linear program", () => {
  it("finds the cheapest corner", () => {
    const answer = solveSmall({ rows: rows([[-2, -1], -3], [[1, 0], 1]), costs: [1, 1] });
    expect(answer.kind === "best" && [...answer.x]).toEqual([1, 1]);
  });

  // V. Chvátal, Linear Programming (1983), chapter 1: maximise 5a + 4b + 3c subject to 2a + 3b + c ≤ 5,
  // 4a + b + 2c ≤ 11, 3a + 4b + 2c ≤ 8 has the value 13; by duality so has this least.
  it("gives the value of a printed example, through its dual", () => {
    const answer = solveSmall({
      rows: rows([[-2, -4, -3], -5], [[-3, -1, -4], -4], [[-1, -2, -2], -3]),
      costs: [5, 11, 8],
    });
    const [x, y, z] = answer.kind === "best" ? answer.x : [];
    expect(5 * x! + 11 * y! + 8 * z!).toBeCloseTo(13, 9);
  });

  it("proves that there is nothing where there is nothing, and meets every row where there is", () => {
    const random = randomFrom(3);
    const seen = { best: 0, none: 0, stuck: 0 };
    for (let at = 0; at < 2000; at++) {
      const width = 1 + Math.floor(random() * 8);
      const given = rows(
        ...Array.from({ length: 2 + Math.floor(random() * 10) }, (): [number[], number] => [
          Array.from({ length: width }, () => (random() < 0.3 ? 0 : random() * 2 - 1)),
          random() * 2 - 1,
        ]),
      );
      const answer = solveSmall({ rows: given, costs: Array.from({ length: width }, random) });
      seen[answer.kind] += 1;
      const sum = (of: ArrayLike<number>, by: ArrayLike<number>) =>
        Array.from(of).reduce((total, each, place) => total + each * by[place]!, 0);
      if (answer.kind === "best") {
        expect(Math.min(...answer.x)).toBeGreaterThanOrEqual(0);
        for (const { coefficients, most } of given)
          expect(sum(answer.x, coefficients)).toBeLessThanOrEqual(most + 1e-7);
      }
      if (answer.kind === "none") {
        const { weights } = answer;
        expect(Math.min(...weights)).toBeGreaterThanOrEqual(0);
        expect(
          sum(
            weights,
            given.map(({ most }) => most),
          ),
        ).toBeLessThan(0);
        for (let column = 0; column < width; column++) {
          const asked = given.map(({ coefficients }) => coefficients[column]!);
          expect(sum(weights, asked)).toBeGreaterThan(-1e-7);
        }
      }
    }
    expect(seen.stuck).toBe(0);
    expect(Math.min(seen.best, seen.none)).toBeGreaterThan(200);
  });
});
