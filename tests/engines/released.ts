import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import { drizzle as drizzlePostgres } from "drizzle-orm/postgres-js";
import { migrate as migratePostgres } from "drizzle-orm/postgres-js/migrator";
import postgres from "postgres";
import { inject } from "vitest";
import { migrationsFolder } from "../../src/db/client.ts";

type Row = Record<string, unknown>;

/** A database as an earlier release left it. */
export type Released = {
  /** What the program is told of it, to open it as a start does. */
  config: { databaseUrl: string | undefined; migrateUrl: undefined; dataDir: string };
  drop: () => Promise<void>;
};

type Asks = (query: string) => Promise<Row[]>;

/**
 * Makes a database with the migrations up to one, and the rows of a dump.
 *
 * @param look is let in while it is still as the release left it.
 */
export async function makeReleased(
  { last, dump }: { last: string; dump: string },
  look: (ask: Asks) => Promise<void>,
): Promise<Released> {
  const migrations = await migrationsUpTo(last);
  const sql = `set session_replication_role = replica;\n${dump}\nset session_replication_role = origin;`;
  try {
    return await (process.env.BUCKET_ENGINE === "postgres"
      ? onServer(migrations, sql, look)
      : inFolder(migrations, sql, look));
  } finally {
    await rm(migrations, { recursive: true, force: true });
  }
}

/** A folder of migrations that ends with the one that is named. */
async function migrationsUpTo(last: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-migrations-"));
  await cp(migrationsFolder, folder, { recursive: true });
  const path = join(folder, "meta/_journal.json");
  const journal = JSON.parse(await readFile(path, "utf8")) as { entries: { tag: string }[] };
  const place = journal.entries.findIndex(({ tag }) => tag === last);
  if (place < 0) throw new Error(`There is no migration ${last}.`);
  await writeFile(
    path,
    JSON.stringify({ ...journal, entries: journal.entries.slice(0, place + 1) }),
  );
  return folder;
}

async function inFolder(
  migrationsFolder: string,
  sql: string,
  look: (ask: Asks) => Promise<void>,
): Promise<Released> {
  const dataDir = await mkdtemp(join(tmpdir(), "bucket-released-"));
  const client = await PGlite.create(join(dataDir, "pg"));
  await migrate(drizzle(client), { migrationsFolder });
  await client.exec(sql);
  await look(async (query) => (await client.query<Row>(query)).rows);
  await client.close();
  return {
    config: { databaseUrl: undefined, migrateUrl: undefined, dataDir },
    drop: () => rm(dataDir, { recursive: true, force: true }),
  };
}

async function onServer(
  migrationsFolder: string,
  sql: string,
  look: (ask: Asks) => Promise<void>,
): Promise<Released> {
  const server = inject("server");
  const name = `bucket_released_${process.pid}_${Math.random().toString(36).slice(2, 10)}`;
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  const client = postgres(url.href, { max: 1, onnotice: () => {} });
  await migratePostgres(drizzlePostgres(client), { migrationsFolder });
  await client.unsafe(sql);
  await look((query) => client.unsafe(query));
  await client.end({ timeout: 5 });
  return {
    config: { databaseUrl: url.href, migrateUrl: undefined, dataDir: "" },
    async drop() {
      await admin`drop database ${admin(name)} with (force)`;
      await admin.end();
    },
  };
}
