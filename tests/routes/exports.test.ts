import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getTableConfig } from "drizzle-orm/pg-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { appendEvents } from "../../src/db/events.ts";
import { fieldsOf } from "../../src/db/export-fields.ts";
import { exported } from "../../src/db/export-nouns.ts";
import { readRows } from "../../src/db/export-rows.ts";
import { exportOf, type Files, filesIn, rowsIn } from "../exports.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  await publish(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

/** Rows that refer to a row that is not in the same export. */
function dangling(files: Files): string[] {
  const found: string[] = [];
  for (const noun of exported) {
    const rows = rowsIn(files, noun.name);
    const names = new Map(fieldsOf(noun).map(({ name, column }) => [column.name, name]));
    for (const { reference } of getTableConfig(noun.table).foreignKeys) {
      const { columns, foreignColumns, foreignTable } = reference();
      const other = exported.find(({ table }) => table === foreignTable);
      if (!other) throw new Error(`${noun.name} refers to what is left out`);
      const theirs = new Map(fieldsOf(other).map(({ name, column }) => [column.name, name]));
      const keys = new Set(
        rowsIn(files, other.name).map((row) =>
          foreignColumns.map(({ name }) => row[theirs.get(name) ?? ""]).join(" "),
        ),
      );
      for (const row of rows) {
        const values = columns.map(({ name }) => row[names.get(name) ?? ""]);
        if (values.includes(null) || keys.has(values.join(" "))) continue;
        found.push(`${noun.name}: ${values.join(" ")}`);
      }
    }
  }
  return found;
}

describe("an export over HTTP", () => {
  it("is a file for a manager, named after the studio and the day, kept by no cache", async () => {
    const answer = await studio.send("manager", "/export");
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-type")).toBe("application/zip");
    expect(answer.headers.get("content-disposition")).toMatch(
      /^attachment; filename="saltmarsh-lane-studio-\d{4}-\d\d-\d\d\.zip"$/,
    );
    expect(answer.headers.get("cache-control")).toBe("no-store");
    const files = await filesIn(new Uint8Array(await answer.arrayBuffer()));
    expect(rowsIn(files, "people")).toHaveLength(4);
    expect((await studio.send("reviewer", "/export")).status).toBe(403);
    const head = await studio.send("manager", "/export", { method: "HEAD" });
    expect([head.status, await head.text()]).toEqual([200, ""]);
  });

  it("is explained on a page, with the record's head to note down", async () => {
    const { head } = await studio.json<{ head: { seq: number; hash: string } }>(
      "manager",
      "/studio/data",
    );
    const page = await (await studio.send("manager", "/studio/data")).text();
    expect(page).toContain(`${head.seq}:${head.hash}`);
    expect(page).toContain('href="/export"');
    expect(page).toContain('href="/imports/new"');
  });

  it("leaves no folder behind where whoever fetches it stops half-way", async () => {
    // A folder of its own, since others may be exporting at the same time.
    const before = process.env.TMPDIR;
    const own = await mkdtemp(join(tmpdir(), "bucket-stopped-"));
    process.env.TMPDIR = own;
    try {
      const answer = await studio.send("manager", "/export");
      const reader = answer.body?.getReader();
      await reader?.read();
      expect(await readdir(own)).toHaveLength(1);
      await reader?.cancel();
      await vi.waitFor(async () => expect(await readdir(own)).toEqual([]), 30_000);
    } finally {
      if (before === undefined) delete process.env.TMPDIR;
      else process.env.TMPDIR = before;
      await rm(own, { recursive: true, force: true });
    }
  });
});

// The embedded engine has one connection and answers in this very thread: who works beside it here
// holds up the files that an export is written to, not its rows.
describe.runIf(process.env.BUCKET_ENGINE === "postgres")("an export while others work", () => {
  it("is of one moment: nothing in it refers to what is not", async () => {
    let going = true;
    const work = async () => {
      while (going) {
        const slug = await publish(studio);
        await studio.send("author", `/recipes/${slug}/notes`, { json: { text: "Sieve it." } });
      }
    };
    const working = [work(), work()];
    const zips: Buffer[] = [];
    try {
      for (let turn = 0; turn < 4; turn += 1) zips.push(await exportOf(studio.db));
    } finally {
      going = false;
      await Promise.all(working);
    }
    const sizes: number[] = [];
    for (const zip of zips) {
      const files = await filesIn(zip);
      expect(dangling(files)).toEqual([]);
      const events = rowsIn(files, "events");
      const { head } = JSON.parse(String(files.get("manifest.json")));
      expect(events.at(-1)).toMatchObject(head);
      sizes.push(events.length);
    }
    expect(sizes.at(-1)).toBeGreaterThan(sizes[0] ?? 0);
  });

  it("holds a batch of rows at a time and no more", async () => {
    const happening = { kind: "noted", subject: "recipe", subjectId: studio.ids.author } as const;
    const act = { by: studio.ids.author, at: new Date("2026-03-01T09:00:00Z") };
    await appendEvents(
      studio.db,
      Array.from({ length: 1200 }, () => ({ act, happening })),
    );
    const noun = exported.find(({ name }) => name === "events");
    if (!noun) throw new Error("no events");
    const batches: number[] = [];
    for await (const rows of readRows(studio.db, noun)) batches.push(rows.length);
    expect(Math.max(...batches)).toBe(500);
    expect(batches.length).toBeGreaterThan(2);
  });
});
