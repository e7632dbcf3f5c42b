import { fork } from "node:child_process";
import { once } from "node:events";
import { readdirSync, writeFileSync } from "node:fs";
import { benchmarksPage, type Ran } from "./sheets/benchmarks-page.ts";
import { keepLibrary } from "./sheets/library.ts";
import { tellMachine } from "./sheets/machine.ts";
import type { Result } from "./sheets/result.ts";

/**
 * Runs the benches one after another, each in a process of its own, and writes what they found out to
 * docs/benchmarks.md; fails where one fails.
 *
 *     TEST_DATABASE_URL=postgres://… npm run bench [-- full | names of benches]
 *
 * "full" takes the sizes that the bounds are for. With names only those run, and nothing is written.
 */
const benches: Readonly<Record<string, { usual?: string[]; full?: string[] }>> = {
  chemistry: {},
  contract: {},
  "shelf-plan": {},
  "cold-start": {},
  "firing-log": {},
  events: {},
  nearest: { usual: ["10000"], full: ["20000"] },
  recompute: { usual: ["3000"], full: ["10000"] },
  wall: {},
  find: { usual: ["10000"], full: ["100000"] },
  pages: { usual: ["10000", "400"], full: ["100000", "1500"] },
};

const asked = process.argv.slice(2);
const sizes = asked.includes("full") ? ("full" as const) : ("usual" as const);
const names = asked.filter((each) => each !== "full");
const unknown = names.filter((name) => !(name in benches));
if (unknown.length > 0) throw new Error(`There is no bench ${unknown.join(", ")}.`);

const folder = new URL(".", import.meta.url);
const others = readdirSync(folder)
  .filter((file) => file.endsWith(".ts") && file !== "all.ts")
  .map((file) => file.slice(0, -3))
  .filter((name) => !(name in benches));
if (others.length > 0)
  console.log(`Not run by this, since they hold nothing to a bound: ${others}`);

const chosen = names.length > 0 ? names : Object.keys(benches);
const server = process.env.TEST_DATABASE_URL;
const recipes = Number(benches.find?.[sizes]?.[0]);
const sharing = server !== undefined && chosen.includes("find") && chosen.includes("pages");
const takeAway = sharing ? await keepLibrary(server, recipes) : undefined;
const ran: Ran[] = [];
for (const name of chosen) {
  console.log(`\n${name}`);
  ran.push(await run(name));
}
await takeAway?.();
if (names.length === 0) {
  const about = { machine: await tellMachine(), day: new Date().toISOString().slice(0, 10), sizes };
  writeFileSync(new URL("../docs/benchmarks.md", folder), benchmarksPage(ran, about));
  console.log("\nWritten to docs/benchmarks.md.");
}
process.exitCode = ran.some(({ failed }) => failed) ? 1 : 0;

async function run(name: string): Promise<Ran> {
  const start = performance.now();
  const results: Result[] = [];
  const bench = fork(new URL(`${name}.ts`, folder), benches[name]?.[sizes] ?? [], {
    execArgv: ["--import", "tsx"],
  });
  bench.on("message", (result) => results.push(result as Result));
  await once(bench, "close");
  const minutes = (performance.now() - start) / 60_000;
  return { name, results, minutes, failed: bench.exitCode !== 0 };
}
