import { cp, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { inject } from "vitest";
import { type Database, openDatabase } from "../../src/db/client.ts";

/** A migrated database of one's own that a server can be started on, and be killed. */
export type ServedDatabase = {
  /** What the server is told of it. */
  variables: { DATABASE_URL: string; DATA_DIR: string };
  /** Opens it here, while no server runs on it: the embedded engine takes one process at a time. */
  open: () => Promise<Database>;
  drop: () => Promise<void>;
};

export const makeServedDatabase = (): Promise<ServedDatabase> =>
  process.env.BUCKET_ENGINE === "postgres" ? onServer() : inFolder();

async function inFolder(): Promise<ServedDatabase> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-served-"));
  await cp(inject("template"), join(folder, "pg"), { recursive: true });
  return {
    variables: { DATABASE_URL: "", DATA_DIR: folder },
    open: () => openDatabase({ databaseUrl: undefined, migrateUrl: undefined, dataDir: folder }),
    drop: () => rm(folder, { recursive: true, force: true }),
  };
}

async function onServer(): Promise<ServedDatabase> {
  const server = inject("server");
  const name = `bucket_served_${process.pid}_${Math.random().toString(36).slice(2, 10)}`;
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)} template ${admin(inject("template"))}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  return {
    variables: { DATABASE_URL: url.href, DATA_DIR: "" },
    open: () => openDatabase({ databaseUrl: url.href, migrateUrl: undefined, dataDir: "" }),
    async drop() {
      await admin`drop database ${admin(name)} with (force)`;
      await admin.end();
    },
  };
}
