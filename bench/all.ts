import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";

/** Runs every bench of this folder in turn; fails where one fails. */
const folder = new URL(".", import.meta.url).pathname;
const benches = readdirSync(folder).filter((name) => name.endsWith(".ts") && name !== "all.ts");

let failed = false;
for (const bench of benches.sort()) {
  console.log(`\n${bench}`);
  const { status } = spawnSync(process.execPath, ["--import", "tsx", `${folder}${bench}`], {
    stdio: "inherit",
  });
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;
