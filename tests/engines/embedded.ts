import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import { pg_trgm } from "@electric-sql/pglite/contrib/pg_trgm";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import type { TestProject } from "vitest/node";
import { migrationsFolder } from "../../src/db/client.ts";

/** One migrated database in a folder; each test file opens a copy of it in memory. */
export default async function embeddedTemplate(project: TestProject) {
  const folder = await mkdtemp(join(tmpdir(), "bucket-template-"));
  const client = await PGlite.create(folder, { extensions: { pg_trgm } });
  await migrate(drizzle(client), { migrationsFolder });
  await client.close();
  project.provide("template", folder);
  return () => rm(folder, { recursive: true, force: true });
}
