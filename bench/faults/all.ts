import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";

/** Brings about every fault of this folder in turn, or the one that is named; fails where a promise broke. */
const folder = new URL(".", import.meta.url).pathname;
const [wanted] = process.argv.slice(2);
const faults = readdirSync(folder)
  .filter((name) => name.endsWith(".ts") && name !== "all.ts")
  .map((name) => name.slice(0, -3))
  .sort()
  .filter((name) => wanted === undefined || name === wanted);

if (faults.length === 0) throw new Error(`there is no fault called ${wanted}`);
for (const fault of faults) {
  console.log(`\n${fault}`);
  const script = `${folder}${fault}.ts`;
  const { status } = spawnSync(process.execPath, ["--import", "tsx", script], { stdio: "inherit" });
  if (status !== 0) process.exitCode = 1;
}
