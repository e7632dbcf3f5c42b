import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ended, freePort, stop, untilAnswers } from "./sheets/processes.ts";
import { handOn } from "./sheets/result.ts";

/**
 * How long the demo takes from its process's start to its first page, beside opening the bare
 * embedded database with nothing in it in a process of its own: each the best of three, in fresh
 * folders, by turns. Over twice as long it fails.
 */
const most = 2;
const rounds = 3;

const bare: number[] = [];
const demo: number[] = [];
for (let round = 0; round < rounds; round += 1) {
  bare.push(await inFreshFolder(openBare));
  demo.push(await inFreshFolder(startDemo));
}
handOn(
  {
    ...{
      what: "the demo's first page from its start",
      against: "opening an empty embedded database",
    },
    ...{ size: "the demo", ratio: Math.min(...demo) / Math.min(...bare), bound: { most } },
  },
  `${inSeconds(demo)} beside ${inSeconds(bare)}`,
);

function inSeconds(milliseconds: readonly number[]): string {
  const all = milliseconds.map((each) => (each / 1000).toFixed(1)).join(", ");
  return `${(Math.min(...milliseconds) / 1000).toFixed(2)} s (${all})`;
}

async function inFreshFolder(measure: (folder: string) => Promise<number>): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-cold-"));
  try {
    return await measure(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function openBare(folder: string): Promise<number> {
  const program = `import { PGlite } from "@electric-sql/pglite"; await PGlite.create(${JSON.stringify(join(folder, "pg"))}); console.log("ready"); process.exit(0);`;
  const started = performance.now();
  const child = spawn(process.execPath, ["--input-type=module", "--eval", program], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  await once(child.stdout, "data");
  const took = performance.now() - started;
  await ended(child);
  return took;
}

async function startDemo(folder: string): Promise<number> {
  const port = await freePort();
  const started = performance.now();
  const child = spawn(process.execPath, ["--import", "tsx", "src/demo.ts"], {
    env: { ...process.env, DATABASE_URL: "", DATA_DIR: folder, HOST: "127.0.0.1", PORT: `${port}` },
    stdio: ["ignore", "ignore", "inherit"],
  });
  try {
    await untilAnswers(`http://127.0.0.1:${port}/recipes`, child);
    return performance.now() - started;
  } finally {
    await stop(child);
  }
}
