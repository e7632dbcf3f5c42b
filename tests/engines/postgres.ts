import { PostgreSqlContainer } from "@testcontainers/postgresql";
import postgres from "postgres";
import type { TestProject } from "vitest/node";
import { migratePostgres } from "../../src/db/postgres.ts";
import { findEngines } from "./find.ts";

/** One migrated database on a server of this machine or in a container; each test file clones it. */
export default async function postgresTemplate(project: TestProject) {
  const found = (await findEngines()).postgres;
  if (!found) throw new Error("there is no Postgres to test on");
  const container =
    found.from === "container" ? await new PostgreSqlContainer("postgres:15").start() : undefined;
  const server = found.from === "url" ? found.url : (container?.getConnectionUri() ?? "");

  const name = `bucket_template_${process.pid}`;
  const admin = postgres(server, { max: 1, onnotice: () => {} });
  await admin`drop database if exists ${admin(name)}`;
  await admin`create database ${admin(name)}`;
  const url = new URL(server);
  url.pathname = `/${name}`;
  await migratePostgres(url.href);
  project.provide("server", server);
  project.provide("template", name);
  return async () => {
    const made = await admin<{ datname: string }[]>`
      select datname from pg_database
      where datname = ${name} or starts_with(datname::text, ${`${name}_`})`;
    for (const { datname } of made) await admin`drop database ${admin(datname)} with (force)`;
    await admin.end();
    await container?.stop();
  };
}
