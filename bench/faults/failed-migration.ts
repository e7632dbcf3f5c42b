import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { project, startApp } from "../sheets/app.ts";
import { type Engine, onEachEngine, verifyClean } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { openStudio } from "./sheets/studio.ts";

/** A release whose last migration fails in its third statement, beside the one that is here. */
const release = mkdtempSync(join(tmpdir(), "bucket-release-"));
try {
  makeBadRelease();
  await onEachEngine(async (engine) => {
    const good = await openStudio(await startApp(engine.variables));
    await good.app.end("SIGTERM");
    const before = await stateOf(engine);
    const bad = await startApp(engine.variables, { folder: release }).then(
      async (app) => {
        await app.end("SIGKILL");
        return "it serves";
      },
      (error: Error) => error.message.trim(),
    );
    const inWords = /^The database cannot be brought up to date: .*what_is_not_there.*\.$/s;
    promised(engine.name, "it says what is wrong and does not serve", inWords.test(bad), bad);
    const same = (await stateOf(engine)) === before;
    promised(engine.name, "the database is exactly as before", same, same ? "it is" : "it changed");
    good.app = await startApp(engine.variables);
    const read = await good.ask(`/recipes/${good.recipe}`);
    promised(engine.name, "the good version starts again", read.status === 200, `${read.status}`);
    await good.app.end("SIGTERM");
    verifyClean(engine);
  });
} finally {
  rmSync(release, { recursive: true, force: true });
}

function makeBadRelease(): void {
  for (const part of ["src", "views", "public", "docs", "package.json", "tsconfig.json"])
    cpSync(join(project, part), join(release, part), { recursive: true });
  symlinkSync(join(project, "node_modules"), join(release, "node_modules"));
  const migrations = join(release, "src/db/migrations");
  const journal = join(migrations, "meta/_journal.json");
  const known = JSON.parse(readFileSync(journal, "utf8"));
  const { idx, when } = known.entries.at(-1);
  known.entries.push({ ...known.entries[0], idx: idx + 1, when: when + 1, tag: "half_done" });
  writeFileSync(journal, JSON.stringify(known));
  const statements = [
    "create table half_done (n integer);",
    "alter table recipes add column half_done integer;",
    "insert into half_done select n from what_is_not_there;",
  ];
  writeFileSync(join(migrations, "half_done.sql"), statements.join("\n--> statement-breakpoint\n"));
}

/** Its columns, its migrations and its chain of events. */
async function stateOf({ open }: Engine): Promise<string> {
  const { db, close } = await open();
  const columns = await db.execute(
    sql`select table_name, column_name, data_type from information_schema.columns
        where table_schema = 'public' order by 1, 2`,
  );
  const carriedOut = await db.execute(sql`select * from drizzle.__drizzle_migrations order by id`);
  const events = await db.execute(sql`select seq, hash from events order by seq`);
  await close();
  return JSON.stringify([columns, carriedOut, events]);
}
