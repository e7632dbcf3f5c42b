import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as later } from "node:timers/promises";

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
const ratio = Math.min(...demo) / Math.min(...bare);
console.log(
  `cold start: bare database ${inSeconds(bare)}, demo's first page ${inSeconds(demo)}, ratio ${ratio.toFixed(2)}`,
);
process.exitCode = ratio <= most ? 0 : 1;

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
    while (!(await answers(`http://127.0.0.1:${port}/recipes`))) {
      if (child.exitCode !== null) throw new Error("the demo ended before its first page");
      await later(20);
    }
    return performance.now() - started;
  } finally {
    child.kill("SIGTERM");
    await ended(child);
  }
}

function answers(page: string): Promise<boolean> {
  return fetch(page).then(
    (answer) => answer.status === 200,
    () => false,
  );
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode === null && child.signalCode === null) await once(child, "exit");
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  server.close();
  await once(server, "close");
  if (address === null || typeof address === "string") throw new Error("no port is free");
  return address.port;
}
