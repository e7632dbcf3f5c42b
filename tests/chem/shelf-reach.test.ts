import { describe, expect, it } from "vitest";
import { nearestMix } from "../../src/chem/shelf-mix.ts";
import { reachOfShelf } from "../../src/chem/shelf-reach.ts";
import { generatedProblem } from "./shelf-problems.ts";

const notLate = () => false;

describe("how far a shelf goes", () => {
  it("finds what trying each powder finds, and puts the one that opens the most first", () => {
    let opened = 0;
    for (const seed of [1, 2, 3, 4]) {
      const problem = generatedProblem({ seed, powders: 18, recipes: 25, within: 0.1 });
      const { powders, targets, within } = problem;
      const have = 8;
      const bases = targets.map(() => [-1]);
      const reach = reachOfShelf({ ...problem, have, bases }, notLate);
      const shelf = powders.slice(0, have);
      const mixes = (from: typeof shelf, target: number) => {
        const { wanted } = targets[target]!;
        return wanted && nearestMix({ wanted, powders: from, within });
      };
      for (const target of targets.keys()) {
        const more = [...powders.keys()]
          .slice(have)
          .filter((at) => mixes([...shelf, powders[at]!], target));
        const found = reach.withOneMore.find((each) => each.target === target)?.powders ?? [];
        const restated = mixes(shelf, target);
        expect(reach.restated.some((each) => each.target === target)).toBe(Boolean(restated));
        expect(found).toEqual(restated ? [] : more);
        opened += found.length;
      }
      const counts = reach.opens.map((each) => each.targets.length);
      expect([...counts].sort((a, b) => b - a)).toEqual(counts);
    }
    expect(opened).toBeGreaterThan(10);
  });

  it("makes a recipe as it is where its base is there, and opens it by its own last powder", () => {
    const problem = generatedProblem({ seed: 2, powders: 12, recipes: 2 });
    const asked = {
      ...problem,
      have: 4,
      bases: [
        [0, 3],
        [0, 3, 9],
      ],
    };
    const reach = reachOfShelf(asked, notLate);
    expect(reach.asTheyAre).toEqual([0]);
    const ways = [...reach.restated, ...reach.withOneMore].map(({ target }) => target);
    expect(ways).toEqual([1]);
    const late = reachOfShelf({ ...asked, bases: [[-1], [-1]] }, () => true);
    expect([late.stopped, late.beyond[0]?.because]).toEqual([
      "clock",
      "There was no time left to look for one more powder.",
    ]);
  });
});
