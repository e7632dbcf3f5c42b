import { appendFile, cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { migrationsFolder } from "../../src/db/client.ts";
import { migratePostgres } from "../../src/db/postgres.ts";
import { makeServedDatabase, type ServedDatabase } from "../engines/served.ts";

describe.runIf(process.env.BUCKET_ENGINE === "postgres")("a migration beside an instance", () => {
  let served: ServedDatabase;
  let folder: string;
  let client: postgres.Sql;
  beforeAll(async () => {
    served = await makeServedDatabase();
    client = postgres(served.variables.DATABASE_URL, { max: 3, onnotice: () => {} });
    folder = await mkdtemp(join(tmpdir(), "bucket-migrations-"));
    await cp(migrationsFolder, folder, { recursive: true });
    const path = join(folder, "meta/_journal.json");
    const journal = JSON.parse(await readFile(path, "utf8"));
    const last = journal.entries.at(-1);
    journal.entries.push({ ...last, idx: last.idx + 1, when: last.when + 1, tag: "9999_later" });
    await writeFile(path, JSON.stringify(journal));
    const columns = ["analyses", "recipes"].map((table) => `ALTER TABLE ${table} ADD later text;`);
    await appendFile(join(folder, "9999_later.sql"), columns.join("\n--> statement-breakpoint\n"));
  });
  afterAll(async () => {
    await client?.end();
    await served?.drop();
    await rm(folder, { recursive: true, force: true });
  });

  const waits = async () => {
    const rows =
      await client`select 1 from pg_locks where not granted and relation = 'recipes'::regclass`;
    expect(rows.length).toBe(1);
  };

  it("lets a request go first that holds one table and wants another, and then is carried out", async () => {
    const url = served.variables.DATABASE_URL;
    let migrating: Promise<void> | undefined;
    await client.begin(async (tx) => {
      await tx`select count(*) from recipes`;
      migrating = migratePostgres(url, undefined, folder);
      // It has the analyses by then, and the request comes for them.
      await vi.waitFor(waits, { timeout: 20_000, interval: 2 });
      await tx`select count(*) from analyses`;
    });
    await migrating;
    expect((await client`select later from analyses`).count).toBe(0);
    expect((await client`select later from recipes`).count).toBe(0);
  });

  it("asks for no table where nothing is to come", async () => {
    await client.begin(async (tx) => {
      await tx`lock table recipes in access exclusive mode`;
      await migratePostgres(served.variables.DATABASE_URL, undefined, folder);
    });
    expect((await client`select later from recipes`).count).toBe(0);
  });
});
