import { drizzle } from "drizzle-orm/postgres-js";
import { migrate } from "drizzle-orm/postgres-js/migrator";
import postgres from "postgres";
import { type Database, migrationsFolder } from "./client.ts";
import * as schema from "./schema/index.ts";
import { type Watched, watchQueries } from "./slow-queries.ts";

/** Any number: what matters is that every instance asks for the same lock. */
const migrationLock = 7_263_401;

/**
 * Postgres 15 or later. Migrations run first, one instance at a time, under the owner where
 * `migrateUrl` is given; the role of `url` then gets to use the tables without owning any.
 */
export async function openPostgres(
  url: string,
  migrateUrl?: string,
  watched?: Watched,
): Promise<Database> {
  await migratePostgres(migrateUrl ?? url, migrateUrl ? roleOf(url) : undefined);
  const client = postgres(url, { max: 10, onnotice: () => {} });
  if (watched) watchQueries(client, watched);
  const db = drizzle(client, { schema, casing: "snake_case" });
  return { db, engine: "postgres", close: () => client.end({ timeout: 5 }) };
}

export async function migratePostgres(url: string, appRole?: string): Promise<void> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  try {
    await client`select pg_advisory_lock(${migrationLock})`;
    await migrate(drizzle(client), { migrationsFolder });
    if (appRole) await grantUse(client, appRole);
  } finally {
    await client.end({ timeout: 5 });
  }
}

async function grantUse(client: postgres.Sql, role: string): Promise<void> {
  await client`grant usage on schema public to ${client(role)}`;
  await client`grant select, insert, update, delete on all tables in schema public to ${client(role)}`;
}

const roleOf = (url: string): string => decodeURIComponent(new URL(url).username);
