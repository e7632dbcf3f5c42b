import { drizzle } from "drizzle-orm/postgres-js";
import { migrate } from "drizzle-orm/postgres-js/migrator";
import postgres from "postgres";
import { type Database, migrationsFolder } from "./client.ts";
import { holdStill } from "./holding-still.ts";
import { endWithConnection } from "./lost-connections.ts";
import { bringUpToDate } from "./migrating.ts";
import * as schema from "./schema/index.ts";
import { type Watched, watchQueries } from "./slow-queries.ts";
import { Turns, takeTurns } from "./turns.ts";

/** Any number: what matters is that every instance asks for the same lock. */
const migrationLock = 7_263_401;

/** What serves requests tells of slow statements, and lets nobody wait for good. */
export type Serving = Watched & {
  /** A statement that takes longer is stopped; 0 leaves it to the database. */
  statementMs: number;
  /** Who has waited so long for a connection is refused. */
  waitMs?: number;
};

const connections = 10;

/** Seconds: a database that is away is not waited for longer, and one that is back is found at once. */
const reaching = { connect_timeout: 10, backoff: (tries: number) => Math.min(tries / 20, 0.5) };

/**
 * Postgres 15 or later. Migrations run first, one instance at a time, under the owner where
 * `migrateUrl` is given; the role of `url` then gets to use the tables without owning any.
 *
 * @throws a sentence where the database does not answer, or cannot be brought up to date.
 */
export async function openPostgres(
  url: string,
  migrateUrl?: string,
  serving?: Serving,
): Promise<Database> {
  await migratePostgres(migrateUrl ?? url, migrateUrl ? roleOf(url) : undefined);
  const bounds = serving?.statementMs
    ? { connection: { statement_timeout: serving.statementMs } }
    : {};
  const client = postgres(url, { max: connections, onnotice: () => {}, ...reaching, ...bounds });
  endWithConnection(client);
  if (serving) {
    takeTurns(client, new Turns(connections, serving.waitMs ?? 5_000));
    watchQueries(client, serving);
  }
  const db = drizzle(client, { schema, casing: "snake_case" });
  return { db, engine: "postgres", close: () => client.end({ timeout: 5 }) };
}

export async function migratePostgres(
  url: string,
  appRole?: string,
  folder = migrationsFolder,
): Promise<void> {
  const client = postgres(url, { max: 1, onnotice: () => {}, ...reaching });
  try {
    await bringUpToDate(async () => {
      await client`select pg_advisory_lock(${migrationLock})`;
      await holdStill(client, folder);
      await migrate(drizzle(client), { migrationsFolder: folder });
    });
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
