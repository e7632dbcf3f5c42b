import { PGlite } from "@electric-sql/pglite";
import { pg_trgm } from "@electric-sql/pglite/contrib/pg_trgm";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import { type Db, migrationsFolder } from "./client.ts";
import { bringUpToDate } from "./migrating.ts";
import * as schema from "./schema/index.ts";

/**
 * Starts the embedded engine on the files in `folder`, with every migration carried out.
 *
 * @param made the files to begin with where the folder is empty; they may still be under way.
 * @throws a sentence where the database cannot be brought up to date; it is closed then.
 */
export async function startEngine(
  folder: string,
  made: Promise<ArrayBuffer> | undefined,
  migrations = migrationsFolder,
): Promise<{ db: Db; close: () => Promise<void> }> {
  const client = await PGlite.create(folder, {
    extensions: { pg_trgm },
    ...(made && { loadDataDir: new UnderWay(made) }),
  });
  forgetTypes(client);
  const db = drizzle(client, { schema, casing: "snake_case" });
  await bringUpToDate(() => migrate(db, { migrationsFolder: migrations })).catch(async (error) => {
    await client.close();
    throw error;
  });
  return { db, close: () => client.close() };
}

/** The engine asks for these bytes once it has started up itself, so that both go on at once. */
class UnderWay extends Blob {
  readonly #bytes: Promise<ArrayBuffer>;

  constructor(bytes: Promise<ArrayBuffer>) {
    super();
    this.#bytes = bytes;
  }

  override arrayBuffer(): Promise<ArrayBuffer> {
    return this.#bytes;
  }
}

/** Arrays of the types that columns have: of booleans, numbers, texts, ids, moments and JSON. */
const arrays = [1000, 1005, 1007, 1016, 1009, 1015, 1021, 1022, 1231, 2951, 1182, 1185, 199, 3807];

/**
 * The engine copies its list of how types are read with every query, and an array for each table's
 * rows stands in it. It is kept short; what is no array the engine knows without it.
 */
function forgetTypes({ parsers }: PGlite): void {
  const types = Object.keys(parsers).map(Number);
  for (const type of types) if (!arrays.includes(type)) delete parsers[type];
}
