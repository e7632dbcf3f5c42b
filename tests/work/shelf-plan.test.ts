import { describe, expect, it } from "vitest";
import { oxides } from "../../src/chem/oxides.ts";
import { placesOf } from "../../src/chem/shelf-bits.ts";
import { planShelf } from "../../src/chem/shelf-plan.ts";
import { shelfSearch } from "../../src/chem/shelf-plan-search.ts";
import { isWithin, reachRows, unityOfMix } from "../../src/chem/shelf-tolerance.ts";
import { type LpModel, solveLp } from "../../src/work/lp.ts";
import { shelfPlan } from "../../src/work/shelf-plan.ts";
import { bruteBudget, bruteShelf, isReached } from "../chem/brute-shelf.ts";
import { generatedProblem, randomFrom } from "../chem/shelf-problems.ts";

const endless = { steps: 50_000_000, isLate: () => false };

/** Up to twelve powders, from one to six of them, of five to twelve recipes. */
const problems = Array.from({ length: 50 }, (_, seed) => {
  const powders = 5 + (seed % 8);
  const within = [0.05, 0.15, 0.3][seed % 3]!;
  const problem = generatedProblem({ seed, powders, recipes: 5 + (seed % 8), within });
  return { problem, size: Math.min(powders, 1 + (seed % 6)) };
});

describe("the search for a shelf", () => {
  it("finds what trying every shelf finds, on fifty problems, and proves it", () => {
    for (const [seed, { problem, size }] of problems.entries()) {
      const found = shelfSearch(problem).best(size, endless);
      const tried = bruteShelf(problem, size);
      const words = `problem ${seed}`;
      expect(found.reached.length, words).toBe(tried.reached);
      expect(placesOf(found.shelf), words).toEqual(tried.shelf);
      expect([found.proven, found.bound], words).toEqual([true, tried.reached]);
    }
  });

  it("finds what trying every shelf within a budget finds, and proves it", () => {
    let [bought, nothing] = [0, 0];
    for (const [seed, { problem, size }] of problems.entries()) {
      if (seed % 2 === 1) continue;
      const budget = [30_000, 250_000, 400_000, 600_000, 2_000_000][(seed / 2) % 5]!;
      const found = shelfSearch(problem).best(size, endless, budget);
      const tried = bruteBudget(problem, size, budget);
      const words = `problem ${seed} within ${budget}`;
      expect(found.reached.length, words).toBe(tried.reached);
      expect(placesOf(found.shelf), words).toEqual(tried.shelf);
      expect([found.proven, found.bound], words).toEqual([true, tried.reached]);
      if (tried.shelf.length > 0) bought++;
      else nothing++;
    }
    expect(Math.min(bought, nothing)).toBeGreaterThan(3);
  });

  it("has an honest bound within a budget where it was stopped, and says where nothing is bought", () => {
    const problem = generatedProblem({ seed: 11, powders: 20, recipes: 40 });
    const best = shelfSearch(problem).best(6, endless, 600_000);
    expect(best.proven).toBe(true);
    for (const steps of [0, 500, 3000, 30_000]) {
      const found = shelfSearch(problem).best(6, { steps, isLate: () => false }, 600_000);
      expect(found.bound).toBeGreaterThanOrEqual(best.reached.length);
      expect(found.reached.length).toBeLessThanOrEqual(best.reached.length);
      expect(found.proven).toBe(found.bound === found.reached.length);
    }
    const none = planShelf({ ...problem, size: 6, curve: true, budget: 1 }, endless);
    expect(none).toMatchObject({ shelf: [], reached: [], bound: 0, proven: true });
    expect(none.missed.map(({ because }) => because)).toContain("There is nothing on the shelf.");
  });

  it("agrees with the solver on what a shelf reaches, and on what it does not", async () => {
    const random = randomFrom(7);
    const seen = { reached: 0, missed: 0 };
    for (const { problem } of problems) {
      const { powders, targets, within } = problem;
      for (const { wanted } of targets.slice(0, 4)) {
        if (!wanted) continue;
        const rows = reachRows(wanted, powders, within);
        const shelf = [...powders.keys()].filter(() => random() < 0.7);
        const model: LpModel = {
          variables: shelf.map((at) => ({ name: `x${at}` })),
          rows: rows.map(({ coefficients, most }) => ({
            coefficients: Object.fromEntries(shelf.map((at) => [`x${at}`, coefficients[at]!])),
            most,
          })),
          minimise: Object.fromEntries(shelf.map((at) => [`x${at}`, 1])),
        };
        const reached = isReached(rows, shelf);
        expect((await solveLp(model)).kind).toBe(reached ? "optimal" : "infeasible");
        seen[reached ? "reached" : "missed"] += 1;
      }
    }
    expect(Math.min(seen.reached, seen.missed)).toBeGreaterThan(20);
  });

  it("prints bases of exactly 100 that are within the tolerance as printed", () => {
    let printed = 0;
    for (const { problem, size } of problems) {
      const { powders, targets, within } = problem;
      const { reached, shelf, missed } = planShelf({ ...problem, size, curve: false }, endless);
      for (const { target, lines } of reached) {
        const amounts = powders.map((_, at) =>
          Number(lines.find(({ powder }) => powder === at)?.amount ?? 0),
        );
        expect(lines.every(({ powder }) => shelf.includes(powder))).toBe(true);
        expect(amounts.reduce((sum, each) => sum + each, 0)).toBeCloseTo(100, 9);
        const wanted = targets[target]!.wanted!;
        const got = unityOfMix(amounts, powders)!;
        expect(isWithin(got, wanted, within)).toBe(true);
        const worst = Math.max(
          ...oxides.map((_, at) => Math.abs(got[at]! - wanted[at]!) / Math.max(wanted[at]!, 0.1)),
        );
        expect(reached.find((each) => each.target === target)!.worst).toBeCloseTo(worst, 12);
        printed += 1;
      }
      expect(reached.length + missed.length).toBe(targets.length);
      for (const { because } of missed) expect(because).toMatch(/^[A-Z].{20,}\.$/);
    }
    expect(printed).toBeGreaterThan(40);
  });

  it("stops by its count of steps at the same place every time, with an honest bound", () => {
    const problem = generatedProblem({ seed: 11, powders: 20, recipes: 40 });
    const best = shelfSearch(problem).best(6, endless);
    expect(best.proven).toBe(true);
    for (const steps of [0, 500, 3000, 10_000, 30_000]) {
      const [once, again] = [0, 1].map(() =>
        shelfSearch(problem).best(6, { steps, isLate: () => false }),
      );
      expect(again).toEqual(once);
      expect(once!.reached.length).toBeLessThanOrEqual(best.reached.length);
      expect(once!.bound).toBeGreaterThanOrEqual(best.reached.length);
      expect(once!.proven).toBe(once!.bound === once!.reached.length);
      expect(once!.stopped).toBe(steps < 3000 ? "steps" : once!.stopped);
    }
    const late = shelfSearch(problem).best(6, { steps: 50_000_000, isLate: () => true });
    expect(late).toMatchObject({ stopped: "clock", proven: false });
  });

  it("draws a curve that never falls and ends two past the size", async () => {
    const problem = generatedProblem({ seed: 5, powders: 12, recipes: 15 });
    const run = { seconds: 20, progress: () => {} };
    const { curve, reached, seconds } = await shelfPlan({ ...problem, size: 5, curve: true }, run);
    expect(curve!.map(({ size }) => size)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    const counts = curve!.map((point) => point.reached);
    expect([...counts].sort((a, b) => a - b)).toEqual(counts);
    expect(counts[4]).toBe(reached.length);
    expect(curve!.every(({ proven }) => proven)).toBe(true);
    for (const { size, reached: count } of curve!.slice(0, 4))
      expect(count).toBe(bruteShelf(problem, size).reached);
    expect(seconds).toBeGreaterThan(0);
  });

  it("takes the cheaper of two shelves that reach as much, and by the alphabet where none is", () => {
    const [silica] = generatedProblem({ seed: 1, powders: 24, recipes: 1 }).powders.filter(
      ({ label }) => label === "wollastonite",
    );
    const named = (label: string, microsPerGram: number | null) => ({
      ...silica!,
      label,
      name: label,
      microsPerGram,
    });
    const targets = [{ label: "a", name: "a", wanted: unityOfMix([1], [silica!]) }];
    const chosen = (...powders: ReturnType<typeof named>[]) => {
      const { shelf } = planShelf(
        { powders, targets, within: 0.05, size: 1, curve: false },
        endless,
      );
      return powders[shelf[0]!]!.label;
    };
    expect(chosen(named("b", 900), named("a", 1000))).toBe("b");
    expect(chosen(named("b", 900), named("a", null))).toBe("b");
    expect(chosen(named("c", 900), named("b", 900), named("a", 901))).toBe("b");
    expect(chosen(named("Z", null), named("y", null), named("X", null))).toBe("X");
  });
});
