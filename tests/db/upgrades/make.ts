import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { type Asked, dumpOf } from "./dump.ts";
import { fillSmall } from "./filling.ts";

// Takes a commit's own code, makes a small studio with it and keeps that studio's rows as SQL, for
// tests/db/upgrades.test.ts:
//
//   node --import tsx tests/db/upgrades/make.ts <commit>
//
// Whoever adds a migration runs it first, for the last commit before, and keeps the file: it is named
// after the last migration that the commit has, and is not made anew later.

const here = new URL(".", import.meta.url).pathname;
const top = new URL("../../../", import.meta.url).pathname;
const git = (...args: string[]) => execFileSync("git", args, { cwd: top, maxBuffer: 1 << 28 });

const [commit] = parseArgs({ allowPositionals: true }).positionals;
if (!commit) throw new Error("Say which commit: the last one before the next migration.");
const short = git("rev-parse", "--short", commit).toString().trim();
const folder = mkdtempSync(join(tmpdir(), "bucket-release-"));
try {
  execFileSync("tar", ["-x", "-C", folder], { input: git("archive", commit) });
  symlinkSync(join(top, "node_modules"), join(folder, "node_modules"));
  const { openDatabase } = await import(join(folder, "src/db/client.ts"));
  const database = await openDatabase({ dataDir: join(folder, "data") });
  const skipped = await fillSmall(folder, database.db);
  const sql = await dumpOf((query: string): Promise<Asked[]> => rowsOf(database.db, query));
  await database.close();
  const migrations = readdirSync(join(folder, "src/db/migrations")).filter((name) =>
    name.endsWith(".sql"),
  );
  const file = join(here, migrations.sort().at(-1) ?? "");
  writeFileSync(file, `-- Made by make.ts from ${short}.\n${sql}`);
  console.log(
    `${file}: ${Math.ceil(sql.length / 1024)} KB, ${skipped} entries had no glaze to be of.`,
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function rowsOf(
  db: { execute: (query: string) => Promise<{ rows: Asked[] }> },
  query: string,
): Promise<Asked[]> {
  return (await db.execute(query)).rows;
}
