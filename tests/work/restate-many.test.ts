import { describe, expect, it } from "vitest";
import { countedOxides, type Restatable } from "../../src/chem/restating.ts";
import { restate } from "../../src/work/restate.ts";
import {
  type RestatedOne,
  type RestateManyInput,
  restateMany,
} from "../../src/work/restate-many.ts";
import { powders, restatings } from "./shelves.ts";

const run = { seconds: 60, progress: () => {} };
const keysOf = (shelf: readonly Restatable[]) => shelf.map(({ key }) => key);

/** Made-up glazes, each to be restated without its first powder. */
function many(seed: number, count: number, most: number): RestateManyInput {
  const recipes = [...restatings(seed, count, "its own and others")].map(({ wanted, shelf }) => ({
    wanted,
    counted: countedOxides("lines", wanted),
    kept: keysOf(shelf).slice(1, 4),
  }));
  return { shelf: [...powders], offered: keysOf(powders).slice(0, 9), most, recipes };
}

function mixOf(answer: RestatedOne | undefined) {
  if (answer?.kind !== "mix") throw new Error(JSON.stringify(answer));
  return answer;
}

/** Every set of `size` of some powders. */
const setsOf = <Each>(all: readonly Each[], size: number): Each[][] =>
  size === 0
    ? [[]]
    : all.flatMap((first, at) =>
        setsOf(all.slice(at + 1), size - 1).map((rest) => [first, ...rest]),
      );

describe("many recipes restated", () => {
  it("come out as each alone where any number of new powders may be taken", async () => {
    const input = many(5, 12, 200);
    const answers = await restateMany(input, run);
    for (const [at, { kept, ...goal }] of input.recipes.entries()) {
      const shelf = powders.filter(({ key }) => [...kept, ...input.offered].includes(key));
      const alone = await restate({ ...goal, shelf, bounds: {}, others: 0 }, run);
      expect(answers[at]).toEqual(alone);
    }
  });

  it.each([1, 2])(
    "take the best %i new powders of all choices there are",
    async (most) => {
      const input = many(17, 6, most);
      const answers = await restateMany(input, run);
      for (const [at, { kept, ...goal }] of input.recipes.entries()) {
        const offered = input.offered.filter((key) => !kept.includes(key));
        const sums: number[] = [];
        for (const chosen of setsOf(offered, most)) {
          const shelf = powders.filter(({ key }) => [...kept, ...chosen].includes(key));
          const one = await restate({ ...goal, shelf, bounds: {}, others: 0 }, run);
          if (one.kind === "mix") sums.push(one.sum);
        }
        const found = mixOf(answers[at]);
        expect(found.sum).toBeLessThanOrEqual(Math.min(...sums) + 1e-6);
        const taken = found.base.filter(({ key }) => offered.includes(key));
        expect(taken.length).toBeLessThanOrEqual(most);
      }
    },
    60_000,
  );

  it("keep to their own powders where no new one may be taken, and say that more come nearer", async () => {
    const input = many(29, 6, 0);
    const answers = await restateMany(input, run);
    for (const [at, { kept }] of input.recipes.entries()) {
      const answer = answers[at];
      if (answer?.kind !== "mix") continue;
      expect(kept).toEqual(expect.arrayContaining(answer.base.map(({ key }) => key)));
      expect(answer.nearer).toBe(true);
    }
    expect(answers.some(({ kind }) => kind === "mix")).toBe(true);
  });

  it("come out the same each time, and are late where there is no time", async () => {
    const input = many(41, 4, 1);
    expect(await restateMany(input, run)).toEqual(await restateMany(input, run));
    const late = await restateMany(input, { ...run, seconds: 0 });
    expect(late).toEqual(input.recipes.map(() => ({ kind: "late" })));
  });
});
