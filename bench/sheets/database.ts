import postgres from "postgres";
import type { Database } from "../../src/db/client.ts";
import { openPostgres } from "../../src/db/postgres.ts";

/**
 * Measures in a database of its own on the Postgres that TEST_DATABASE_URL names, which is dropped
 * again; without one it says what it leaves out. `measure` answers whether its bound held, and that
 * becomes the process's exit status.
 *
 * @param copyOf a database that it begins as a copy of, where the server has one.
 */
export async function inOwnDatabase(
  measure: (database: Database, url: string) => Promise<boolean>,
  { copyOf }: { copyOf?: string } = {},
): Promise<void> {
  const server = process.env.TEST_DATABASE_URL;
  if (!server) {
    console.log("left out: set TEST_DATABASE_URL to a Postgres where a database can be made");
    return;
  }
  const name = `bucket_bench_${process.pid}`;
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  const found = copyOf
    ? await admin`select 1 from pg_database where datname = ${copyOf}`
    : { length: 0 };
  if (copyOf && found.length > 0)
    await admin`create database ${admin(name)} template ${admin(copyOf)}`;
  else await admin`create database ${admin(name)}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  const database = await openPostgres(url.href);
  try {
    process.exitCode = (await measure(database, url.href)) ? 0 : 1;
  } finally {
    await database.close();
    await admin`drop database ${admin(name)} with (force)`;
    await admin.end();
  }
}
