import type { ExtractTablesWithRelations } from "drizzle-orm";
import type { PgDatabase, PgQueryResultHKT } from "drizzle-orm/pg-core";
import type { Config } from "../config.ts";
import type * as schema from "./schema/index.ts";
import type { Watched } from "./slow-queries.ts";

/** A pool, the embedded engine or a transaction: any query function can run inside another's transaction. */
export type Db = PgDatabase<
  PgQueryResultHKT,
  typeof schema,
  ExtractTablesWithRelations<typeof schema>
>;

export type Database = {
  db: Db;
  engine: "postgres" | "embedded";
  close: () => Promise<void>;
};

export const migrationsFolder = new URL("./migrations", import.meta.url).pathname;

/**
 * Opens the database that the configuration names, with every migration carried out.
 *
 * @param watched is told of statements that take long, on Postgres.
 */
export async function openDatabase(
  config: Pick<Config, "databaseUrl" | "migrateUrl" | "dataDir">,
  watched?: Watched,
): Promise<Database> {
  if (config.databaseUrl) {
    const { openPostgres } = await import("./postgres.ts");
    return openPostgres(config.databaseUrl, config.migrateUrl, watched);
  }
  const { openEmbedded } = await import("./embedded.ts");
  return openEmbedded(config.dataDir);
}
