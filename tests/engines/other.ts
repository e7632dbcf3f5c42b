import { PGlite } from "@electric-sql/pglite";
import { pg_trgm } from "@electric-sql/pglite/contrib/pg_trgm";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import { type Database, migrationsFolder } from "../../src/db/client.ts";
import * as schema from "../../src/db/schema/index.ts";
import { type Kept, keepFiles, openCopy } from "./copied.ts";
import { openTestDatabase } from "./open.ts";

/** Migrated once a worker; each is a copy of it. */
let migrated: Promise<Kept> | undefined;

/**
 * A migrated database of one's own on the embedded engine, whichever this run is for: on Postgres the
 * other one, to hold the two against each other.
 */
export async function openEmbeddedToo(): Promise<Database> {
  if (process.env.BUCKET_ENGINE !== "postgres") return openTestDatabase();
  migrated ??= migrateOnce();
  const client = await openCopy(await migrated);
  const db = drizzle(client, { schema, casing: "snake_case" });
  return { db, engine: "embedded", close: () => client.close() };
}

async function migrateOnce(): Promise<Kept> {
  const client = await PGlite.create({ extensions: { pg_trgm } });
  await migrate(drizzle(client), { migrationsFolder });
  const kept = await keepFiles(client);
  await client.close();
  return kept;
}
