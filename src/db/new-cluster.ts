import { Worker } from "node:worker_threads";
import { readMigrationFiles } from "drizzle-orm/migrator";
import { migrationsFolder } from "./client.ts";

/**
 * A new embedded database with every migration carried out, made in memory by a thread of its own:
 * meanwhile this one loads what it needs to open it.
 *
 * @returns the files of it, as a tar archive.
 */
export async function makeCluster(): Promise<ArrayBuffer> {
  const worker = new Worker(new URL("./new-cluster.worker.mjs", import.meta.url), {
    execArgv: [],
    workerData: { migrations: migrationsAtOnce() },
  });
  try {
    return await new Promise((resolve, reject) => {
      worker.once("message", resolve);
      worker.once("error", reject);
      worker.once("exit", (code) =>
        reject(new Error(`The thread that makes the database ended with ${code}.`)),
      );
    });
  } finally {
    await worker.terminate();
  }
}

/** All of them as one text for an empty database, put on record as the migrator would. */
function migrationsAtOnce(): string {
  const carriedOut = readMigrationFiles({ migrationsFolder }).map(
    ({ sql, hash, folderMillis }) =>
      `${sql.join(";\n")};\ninsert into drizzle.__drizzle_migrations (hash, created_at) values ('${hash}', ${folderMillis});`,
  );
  return [
    "begin",
    "create schema drizzle",
    "create table drizzle.__drizzle_migrations (id serial primary key, hash text not null, created_at bigint)",
    ...carriedOut,
    "commit",
  ].join(";\n");
}
