import type { PGlite } from "@electric-sql/pglite";
import { drizzle } from "drizzle-orm/pglite";
import { drizzle as drizzlePostgres } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import { inject } from "vitest";
import type { Database, Db } from "../../src/db/client.ts";
import * as schema from "../../src/db/schema/index.ts";
import { type Kept, keepFiles, openCopy } from "./copied.ts";

declare module "vitest" {
  interface ProvidedContext {
    server: string;
    template: string;
  }
}

/** A migrated database of one's own, on the engine that this run of the file is for. */
export const openTestDatabase = (): Promise<Database> => open(inject("template"));

/** What the databases were filled with that others are copies of: once a worker, by name. */
const filled = new Map<string, Promise<string | Kept>>();

/** A database of one's own that holds what `fill` puts there, which is asked once a worker. */
export async function openFilledDatabase(
  name: string,
  fill: (db: Db) => Promise<void>,
): Promise<Database> {
  const template =
    filled.get(name) ?? (onPostgres() ? fillPostgres(name, fill) : fillEmbedded(fill));
  filled.set(name, template);
  return open(await template);
}

/** How many statements were asked by the databases of this worker. */
export const statements = { asked: 0 };
const logger = {
  logQuery: () => {
    statements.asked += 1;
  },
};

const onPostgres = () => process.env.BUCKET_ENGINE === "postgres";

const open = (template: string | Kept): Promise<Database> =>
  typeof template === "string" && onPostgres() ? clonePostgres(template) : copyEmbedded(template);

const embedded = (client: PGlite) => drizzle(client, { schema, casing: "snake_case", logger });

async function fillEmbedded(fill: (db: Db) => Promise<void>): Promise<Kept> {
  const client = await openCopy(inject("template"));
  await fill(embedded(client));
  const kept = await keepFiles(client);
  await client.close();
  return kept;
}

async function copyEmbedded(template: string | Kept): Promise<Database> {
  const client = await openCopy(template);
  return { db: embedded(client), engine: "embedded", close: () => client.close() };
}

/** Dropped with the template that it was made from, by whoever made that. */
async function fillPostgres(name: string, fill: (db: Db) => Promise<void>): Promise<string> {
  const own = `${inject("template")}_${name}_${process.pid}`;
  const admin = postgres(inject("server"), { max: 1, onnotice: () => {} });
  await admin`create database ${admin(own)} template ${admin(inject("template"))}`;
  await admin.end();
  const { db, end } = connect(own);
  await fill(db);
  await end();
  return own;
}

async function clonePostgres(template: string): Promise<Database> {
  const name = `bucket_${process.pid}_${Math.random().toString(36).slice(2, 10)}`;
  const admin = postgres(inject("server"), { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)} template ${admin(template)}`;
  const { db, end } = connect(name);
  return {
    db,
    engine: "postgres",
    async close() {
      await end();
      await admin`drop database ${admin(name)} with (force)`;
      await admin.end();
    },
  };
}

function connect(name: string) {
  const url = new URL(inject("server"));
  url.pathname = `/${name}`;
  // Nobody loses anything where the server falls, so no commit need wait for the disk.
  const connection = { synchronous_commit: "off" };
  const client = postgres(url.href, { max: 8, onnotice: () => {}, connection });
  const db = drizzlePostgres(client, { schema, casing: "snake_case", logger });
  return { db, end: () => client.end({ timeout: 5 }) };
}
