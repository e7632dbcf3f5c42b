import { drizzle } from "drizzle-orm/pglite";
import { drizzle as drizzlePostgres } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import { inject } from "vitest";
import type { Database } from "../../src/db/client.ts";
import * as schema from "../../src/db/schema/index.ts";
import { openCopy } from "./copied.ts";

declare module "vitest" {
  interface ProvidedContext {
    server: string;
    template: string;
  }
}

/** A migrated database of one's own, on the engine that this run of the file is for. */
export const openTestDatabase = (): Promise<Database> =>
  process.env.BUCKET_ENGINE === "postgres" ? clonePostgres() : copyEmbedded();

async function copyEmbedded(): Promise<Database> {
  const client = await openCopy(inject("template"));
  return {
    db: drizzle(client, { schema, casing: "snake_case" }),
    engine: "embedded",
    close: () => client.close(),
  };
}

async function clonePostgres(): Promise<Database> {
  const server = inject("server");
  const name = `bucket_${process.pid}_${Math.random().toString(36).slice(2, 10)}`;
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)} template ${admin(inject("template"))}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  const client = postgres(url.href, { max: 8, onnotice: () => {} });
  return {
    db: drizzlePostgres(client, { schema, casing: "snake_case" }),
    engine: "postgres",
    async close() {
      await client.end({ timeout: 5 });
      await admin`drop database ${admin(name)} with (force)`;
      await admin.end();
    },
  };
}
