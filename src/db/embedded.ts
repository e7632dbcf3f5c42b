import { access, mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Database } from "./client.ts";
import { lockFolder } from "./folder-lock.ts";
import { makeCluster } from "./new-cluster.ts";

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
  const files = join(folder, "pg");
  await mkdir(files, { recursive: true });
  const unlock = await lockFolder(folder);
  try {
    await checkMajor(folder);
    const made = (await isNew(files)) ? makeCluster() : undefined;
    // Heard of below; the engine may take longer to load than this takes to fail.
    made?.catch(() => {});
    const { startEngine } = await import("./engine.ts");
    const { db, close: stop } = await startEngine(files, made);
    const close = async () => {
      await stop();
      await unlock();
    };
    return { db, engine: "embedded", close };
  } catch (error) {
    await unlock();
    throw error;
  }
}

const isNew = (files: string): Promise<boolean> =>
  access(join(files, "PG_VERSION")).then(
    () => false,
    () => true,
  );

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
