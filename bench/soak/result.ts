import type { Memory } from "./server.ts";
import type { Traffic } from "./traffic.ts";

/** What the server held at a share of the time. */
export type Sample = Memory & { share: number };

/** More than it held after a third of the time, as a share: over these it grows. */
const most = { heap: 0.1, resident: 0.25 };

export type Compared = { says: string; faults: string[] };

/** The end against a third of the time, and all samples in between in words. */
export function compareMemory(samples: readonly Sample[]): Compared {
  const third = samples.find(({ share }) => share === 1 / 3);
  const end = samples.at(-1);
  if (!third || !end) throw new Error("memory was not measured");
  const grown = (what: keyof Memory) => end[what] / third[what] - 1;
  const told = (what: keyof Memory) =>
    `${what} ${samples.map((each) => (each[what] / 2 ** 20).toFixed(1)).join(", ")} MB (${percent(grown(what))} since a third, at most ${percent(most[what])})`;
  const faults = (["heap", "resident"] as const)
    .filter((what) => grown(what) > most[what])
    .map((what) => `memory grows: ${told(what)}`);
  return { says: `${told("heap")}; ${told("resident")}`, faults };
}

const percent = (share: number): string =>
  `${share < 0 ? "−" : "+"}${Math.abs(share * 100).toFixed(1)} %`;

/** What no run of so many requests goes without. */
const enough = 5_000;
const needed = [
  ...["published", "revised", "raced", "came too late", "forked", "noted", "objected", "withdrawn"],
  ...["fired", "entered a tile", "hung a picture", "added a bucket", "weighed a line", "searched"],
  ...[
    "took from a bag",
    "counted a bag",
    "tapped twice",
    "read a feed",
    "took an export",
    "joined",
  ],
  ...["signed out and in", "was refused in words", "reviewed: approve", "finished a mix"],
];

type Result = {
  minutes: number;
  actors: number;
  engine: string;
  seconds: number;
  asked: number;
  traffic: Traffic;
  memory: Compared;
  lines: readonly string[];
};

/** Prints what was done and what broke. @returns whether all of it held. */
export function sayResult(result: Result): boolean {
  const { minutes, actors, engine, seconds, asked, traffic, memory, lines } = result;
  for (const fault of memory.faults) traffic.fault(fault);
  const undone = asked < enough ? [] : needed.filter((what) => !traffic.done.has(what));
  if (undone.length > 0) traffic.fault(`never done: ${undone.join(", ")}`);
  const byName = [...traffic.done].sort(([one], [other]) => (one < other ? -1 : 1));
  console.log(byName.map(([what, times]) => `${what} ${times}`).join(", "));
  const statuses = [...traffic.statuses].sort(([one], [other]) => one - other);
  console.log(`answers: ${statuses.map(([status, times]) => `${status} ${times}`).join(", ")}`);
  for (const line of lines) console.log(line);
  for (const fault of traffic.faults) console.log(`  ${fault}`);
  console.log(
    `soak: ${minutes} min, ${actors} actors, ${engine}: ${asked} requests, ${(asked / seconds).toFixed(0)} a second; ${memory.says}; ${
      traffic.faultCount === 0 ? "nothing broke" : `${traffic.faultCount} things broke`
    }`,
  );
  return traffic.faultCount === 0;
}
