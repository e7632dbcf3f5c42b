import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import { type Database, migrationsFolder } from "./client.ts";
import { lockFolder } from "./folder-lock.ts";
import * as schema from "./schema/index.ts";

/** The major version of Postgres that the embedded engine is. Folders of another cannot be opened. */
const major = "18";

/**
 * The engine for trying out: Postgres inside this process, its files in `folder`. One process at a
 * time; it survives being killed, not a power cut.
 *
 * @throws a sentence for the person at the terminal where another process has the folder open, or
 *   where another major version wrote it.
 */
export async function openEmbedded(folder: string): Promise<Database> {
  await mkdir(join(folder, "pg"), { recursive: true });
  const unlock = await lockFolder(folder);
  try {
    await checkMajor(folder);
    const client = await PGlite.create(join(folder, "pg"));
    const db = drizzle(client, { schema, casing: "snake_case" });
    await migrate(db, { migrationsFolder });
    const close = async () => {
      await client.close();
      await unlock();
    };
    return { db, engine: "embedded", close };
  } catch (error) {
    await unlock();
    throw error;
  }
}

async function checkMajor(folder: string): Promise<void> {
  const record = join(folder, "engine-version");
  const written = await readFile(record, "utf8").catch(() => undefined);
  if (written === undefined) return writeFile(record, `${major}\n`);
  if (written.trim() !== major) {
    throw new Error(
      `${folder} was written by version ${written.trim()} of the embedded engine; this is ${major}. ` +
        "Start in an empty folder and restore from a backup.",
    );
  }
}
