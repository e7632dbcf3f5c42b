import { shelfSearch } from "../src/chem/shelf-plan-search.ts";
import { bruteShelf } from "../tests/chem/brute-shelf.ts";
import { generatedProblem } from "../tests/chem/shelf-problems.ts";
import { handOn } from "./sheets/result.ts";

/**
 * How much faster the search for a shelf is than trying every shelf, whole, in one process with the
 * same inner test: 5 of 14 powders for 30 recipes, over several generated problems, both after warming
 * up and each held to the same answer. Under 10 times as fast it fails. Then, to be read, what it makes
 * of 6 of 24 powders for 60 recipes: the answer, whether it is proven, and the time.
 */
const least = 10;
const limits = { steps: 8_000_000, isLate: () => false };

const small = [2, 3, 4, 5, 6].map((seed) => generatedProblem({ seed, powders: 14, recipes: 30 }));
for (const problem of small.slice(0, 2)) shelfSearch(problem).best(5, limits);

let [searching, trying] = [0, 0];
for (const problem of small) {
  const search = timed(() => shelfSearch(problem).best(5, limits));
  const brute = timed(() => bruteShelf(problem, 5));
  const { reached, proven } = search.answer;
  if (reached.length !== brute.answer.reached || !proven)
    throw new Error(`the search reached ${reached.length}, trying all ${brute.answer.reached}`);
  searching += search.milliseconds;
  trying += brute.milliseconds;
}
const each = (milliseconds: number) => (milliseconds / small.length).toFixed(1);
handOn(
  {
    ...{ what: "planning a shelf, times as fast", against: "trying every shelf" },
    ...{ size: "5 of 14 powders, 30 recipes", ratio: trying / searching, bound: { least } },
  },
  `${each(searching)} ms beside ${each(trying)}`,
);

for (const seed of [1, 2, 3]) {
  const problem = generatedProblem({ seed, powders: 24, recipes: 60 });
  const { answer, milliseconds } = timed(() => shelfSearch(problem).best(6, limits));
  const { reached, bound, proven } = answer;
  const words = proven ? "proven" : `no more than ${bound} possible, gap ${bound - reached.length}`;
  console.log(
    `shelf-plan: 24 powders, size 6, 60 recipes: ${reached.length} reached, ${words}, ${milliseconds.toFixed(0)} ms`,
  );
}

function timed<Answer>(run: () => Answer): { answer: Answer; milliseconds: number } {
  const start = performance.now();
  const answer = run();
  return { answer, milliseconds: performance.now() - start };
}
