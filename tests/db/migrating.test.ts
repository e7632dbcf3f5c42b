import { appendFile, cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { migrationsFolder } from "../../src/db/client.ts";
import { startEngine } from "../../src/db/engine.ts";
import { migratePostgres, openPostgres } from "../../src/db/postgres.ts";
import { makeServedDatabase, type ServedDatabase } from "../engines/served.ts";

const halfDone = `create table half_done (n integer);
--> statement-breakpoint
alter table recipes add column half_done integer;
--> statement-breakpoint
insert into half_done select n from what_is_not_there;
`;

describe("a migration that fails half-way", () => {
  let served: ServedDatabase;
  let folder: string;
  beforeAll(async () => {
    served = await makeServedDatabase();
    folder = await mkdtemp(join(tmpdir(), "bucket-migrations-"));
    await cp(migrationsFolder, folder, { recursive: true });
    const journal = join(folder, "meta", "_journal.json");
    const known = JSON.parse(await readFile(journal, "utf8"));
    const { idx, when } = known.entries.at(-1);
    known.entries.push({ ...known.entries[0], idx: idx + 1, when: when + 1, tag: "half_done" });
    await writeFile(journal, JSON.stringify(known));
    await appendFile(join(folder, "half_done.sql"), halfDone);
  });
  afterAll(async () => {
    await served.drop();
    await rm(folder, { recursive: true, force: true });
  });

  const bringUpToDate = async () => {
    const { DATABASE_URL, DATA_DIR } = served.variables;
    if (DATABASE_URL) return migratePostgres(DATABASE_URL, undefined, folder);
    const { close } = await startEngine(join(DATA_DIR, "pg"), undefined, folder);
    return close();
  };
  const columnsAndMigrations = async () => {
    const { db, close } = await served.open();
    const columns = await db.execute(
      sql`select table_name, column_name from information_schema.columns
          where table_schema = 'public' order by 1, 2`,
    );
    const carriedOut = await db.execute(
      sql`select hash from drizzle.__drizzle_migrations order by id`,
    );
    await close();
    return JSON.stringify([columns, carriedOut]);
  };

  it("is told of in words, and leaves the database as it was", async () => {
    const before = await columnsAndMigrations();
    await expect(bringUpToDate()).rejects.toThrow(
      /cannot be brought up to date: relation "what_is_not_there" does not exist, at “insert into half_done/,
    );
    expect(await columnsAndMigrations()).toBe(before);
    expect(before).not.toContain("half_done");
  });
});

describe("a database that does not answer", () => {
  it("is told of in words", async () => {
    // Nobody listens at the lowest port.
    const nowhere = "postgres://somebody@127.0.0.1:1/bucket";
    await expect(openPostgres(nowhere)).rejects.toThrow(/^The database does not answer: .*REFUSED/);
  });
});
