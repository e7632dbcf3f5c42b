import { describe, expect, it } from "vitest";
import { type LpModel, solveLp } from "../../src/work/lp.ts";

// Worked by hand: at (2, 6) both 2y ≤ 12 and 3x + 2y ≤ 18 stand in the way, so −3x − 5y = −36, and
// the duals solve −5 = 2a + 2b, −3 = 3b: b = −1, a = −1.5.
const twoPlants: LpModel = {
  variables: [{ name: "doors" }, { name: "windows" }],
  rows: [
    { coefficients: { doors: 1 }, most: 4 },
    { coefficients: { windows: 2 }, most: 12 },
    { coefficients: { doors: 3, windows: 2 }, most: 18 },
  ],
  minimise: { doors: -3, windows: -5 },
};

describe("a linear model", () => {
  it("has the optimum and the duals that a pencil gives", async () => {
    const answer = await solveLp(twoPlants);
    expect(answer).toMatchObject({ kind: "optimal", values: { doors: 2, windows: 6 } });
    if (answer.kind !== "optimal") return;
    expect(answer.objective).toBeCloseTo(-36, 9);
    const duals = [0, -1.5, -1];
    duals.forEach((dual, row) => {
      expect(answer.duals?.[row]).toBeCloseTo(dual, 9);
    });
  });

  // By hand: 2x + 3y with x + y between 4 and 9, x at most 1: y = 3, x = 1, so 11.
  it("holds both ends of a row, and counts the row once", async () => {
    const answer = await solveLp({
      variables: [{ name: "x", most: 1 }, { name: "y" }],
      rows: [{ coefficients: { x: 1, y: 1 }, least: 4, most: 9 }],
      minimise: { x: 2, y: 3 },
    });
    expect(answer).toMatchObject({ kind: "optimal", objective: 11, values: { x: 1, y: 3 } });
    expect(answer).toMatchObject({ duals: [3] });
  });

  it("lets a variable go below 0 only where it may", async () => {
    const model = (least?: number): LpModel => ({
      variables: [least === undefined ? { name: "x" } : { name: "x", least }],
      rows: [{ coefficients: { x: 1 }, least: -7 }],
      minimise: { x: 1 },
    });
    expect(await solveLp(model())).toMatchObject({ objective: 0 });
    expect(await solveLp(model(-Infinity))).toMatchObject({ objective: -7 });
    expect(await solveLp(model(-2.5))).toMatchObject({ objective: -2.5 });
  });

  it("says where nothing fits", async () => {
    const rows = [
      { coefficients: { x: 1 }, least: 2 },
      { coefficients: { x: 1 }, most: 1 },
    ];
    const model = { variables: [{ name: "x" }], rows, minimise: { x: 1 } };
    expect(await solveLp(model)).toEqual({ kind: "infeasible" });
  });

  it("answers a model without variables or rows", async () => {
    expect(await solveLp({ variables: [], rows: [], minimise: {} })).toMatchObject({
      kind: "optimal",
      values: {},
    });
    const impossible = { variables: [], rows: [{ coefficients: {}, least: 1 }], minimise: {} };
    expect(await solveLp(impossible)).toEqual({ kind: "infeasible" });
    const noRows = { variables: [{ name: "x", least: 3 }], rows: [], minimise: { x: 2 } };
    expect(await solveLp(noRows)).toMatchObject({ kind: "optimal", objective: 6 });
  });

  it("throws where the objective has no end", async () => {
    const model = { variables: [{ name: "x" }], rows: [], minimise: { x: -1 } };
    await expect(solveLp(model)).rejects.toThrow();
  });

  it("takes names that are words of the text format, and numbers of any size", async () => {
    const answer = await solveLp({
      variables: [{ name: "end" }, { name: "1e3 free" }],
      rows: [{ coefficients: { end: 0.1, "1e3 free": 1e-7 }, least: 123456.78901234567 }],
      minimise: { end: 1, "1e3 free": 1 },
    });
    if (answer.kind !== "optimal") throw new Error(answer.kind);
    expect(answer.values.end).toBeCloseTo(1234567.8901234567, 6);
    expect(answer.values["1e3 free"]).toBe(0);
  });
});

describe("a model with whole numbers", () => {
  // By hand: of 8, 11, 6 and 4 worth weights 5, 7, 4 and 3 in 14, the best are 7 + 4 + 3, worth 21.
  const knapsack: LpModel = {
    variables: ["a", "b", "c", "d"].map((name) => ({ name, most: 1, integer: true })),
    rows: [{ coefficients: { a: 5, b: 7, c: 4, d: 3 }, most: 14 }],
    minimise: { a: -8, b: -11, c: -6, d: -4 },
  };

  it("is solved in whole numbers", async () => {
    const answer = await solveLp(knapsack);
    expect(answer).toEqual({ kind: "optimal", values: { a: 0, b: 1, c: 1, d: 1 }, objective: -21 });
  });

  it("stops at a number of nodes, at the same place each time", async () => {
    const variables = Array.from({ length: 40 }, (_, at) => ({
      name: `v${at}`,
      most: 1,
      integer: true,
    }));
    const pick = (of: (at: number) => number) =>
      Object.fromEntries(variables.map(({ name }, at) => [name, of(at)]));
    const hard: LpModel = {
      variables,
      rows: Array.from({ length: 8 }, (_, row) => ({
        coefficients: pick((at) => ((at * (row + 3) * 7907) % 89) + 20),
        most: 1000,
      })),
      minimise: pick((at) => -((at * 7919) % 97) - 20),
    };
    const first = await solveLp(hard, { nodes: 1 });
    expect(first.kind).toBe("stopped");
    expect(await solveLp(hard, { nodes: 1 })).toEqual(first);
    if (first.kind !== "stopped" || !first.values) throw new Error("no incumbent");
    for (const { coefficients, most = 0 } of hard.rows) {
      const sum = variables.reduce(
        (total, { name }) => total + (coefficients[name] ?? 0) * (first.values?.[name] ?? 0),
        0,
      );
      expect(sum).toBeLessThanOrEqual(most + 1e-6);
    }
  });
});
