import type { ExtractTablesWithRelations } from "drizzle-orm";
import type { PgDatabase, PgQueryResultHKT } from "drizzle-orm/pg-core";
import type { Config } from "../config.ts";
import type { Serving } from "./postgres.ts";
import type { Replica } from "./replica.ts";
import type * as schema from "./schema/index.ts";

/** A pool, the embedded engine or a transaction: any query function can run inside another's transaction. */
export type Db = PgDatabase<
  PgQueryResultHKT,
  typeof schema,
  ExtractTablesWithRelations<typeof schema>
>;

export type Database = {
  db: Db;
  engine: "postgres" | "embedded";
  /** A copy that lists may be read from, where the studio has one. */
  replica?: Replica | undefined;
  close: () => Promise<void>;
};

export const migrationsFolder = new URL("./migrations", import.meta.url).pathname;

/**
 * Opens the database that the configuration names, with every migration carried out, and beside it the
 * replica where one is named.
 *
 * @param serving what holds, on Postgres, for a pool that requests are served from.
 */
export async function openDatabase(
  config: Pick<Config, "databaseUrl" | "migrateUrl" | "dataDir"> &
    Partial<Pick<Config, "replicaUrl">>,
  serving?: Serving,
): Promise<Database> {
  if (config.databaseUrl) {
    const { openPostgres } = await import("./postgres.ts");
    const database = await openPostgres(config.databaseUrl, config.migrateUrl, serving);
    return config.replicaUrl ? besideReplica(database, config.replicaUrl, serving) : database;
  }
  const { openEmbedded } = await import("./embedded.ts");
  return openEmbedded(config.dataDir);
}

async function besideReplica(
  primary: Database,
  url: string,
  watched: Serving | undefined,
): Promise<Database> {
  const { openReplica } = await import("./replica.ts");
  const replica = openReplica(url, primary.db, { watched });
  const close = async () => {
    await replica.close();
    await primary.close();
  };
  return { ...primary, replica, close };
}
