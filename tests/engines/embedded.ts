import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PGlite } from "@electric-sql/pglite";
import { drizzle } from "drizzle-orm/pglite";
import { migrate } from "drizzle-orm/pglite/migrator";
import type { TestProject } from "vitest/node";
import { migrationsFolder } from "../../src/db/client.ts";

/** One migrated database as a file; each test file opens a copy of it in memory. */
export default async function embeddedTemplate(project: TestProject) {
  const folder = await mkdtemp(join(tmpdir(), "bucket-template-"));
  const template = join(folder, "template.tar");
  const client = await PGlite.create();
  await migrate(drizzle(client), { migrationsFolder });
  const dump = await client.dumpDataDir("none");
  await writeFile(template, new Uint8Array(await dump.arrayBuffer()));
  await client.close();
  project.provide("template", template);
  return () => rm(folder, { recursive: true, force: true });
}
