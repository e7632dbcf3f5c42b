import { expect, it } from "vitest";
import { simplex } from "./simplex.ts";

// F. S. Hillier & G. J. Lieberman, Introduction to Operations Research, 1967, chapter 3: the glass
// works with three plants; 2 batches of doors and 6 of windows earn 36.
it("solves the glass works of Hillier & Lieberman", () => {
  const answer = simplex({
    a: [
      [1, 0, 1, 0, 0],
      [0, 2, 0, 1, 0],
      [3, 2, 0, 0, 1],
    ],
    b: [4, 12, 18],
    c: [-3, -5, 0, 0, 0],
  });
  expect(answer).toMatchObject({ kind: "optimal", x: [2, 6, 2, 0, 0], objective: -36 });
});

// E. M. L. Beale, "Cycling in the dual simplex algorithm", Naval Research Logistics Quarterly 2
// (1955), 269–275: circles under the usual rule; the optimum is −1/20.
it("ends on the example of Beale, which circles without Bland's rule", () => {
  const answer = simplex({
    a: [
      [0.25, -60, -1 / 25, 9, 1, 0, 0],
      [0.5, -90, -1 / 50, 3, 0, 1, 0],
      [0, 0, 1, 0, 0, 0, 1],
    ],
    b: [0, 0, 1],
    c: [-0.75, 150, -0.02, 6, 0, 0, 0],
  });
  expect(answer.kind === "optimal" && answer.objective).toBeCloseTo(-0.05, 12);
});

it("says where nothing fits, and where there is no end", () => {
  expect(simplex({ a: [[1], [1]], b: [1, 2], c: [1] })).toEqual({ kind: "infeasible" });
  expect(simplex({ a: [[1, -1]], b: [1], c: [0, -1] })).toEqual({ kind: "unbounded" });
});

it("takes a row twice and ends below 0", () => {
  const answer = simplex({
    a: [
      [-1, -1],
      [-2, -2],
    ],
    b: [-3, -6],
    c: [1, 2],
  });
  expect(answer).toMatchObject({ kind: "optimal", x: [3, 0], objective: 3 });
});
