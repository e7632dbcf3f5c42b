import { readFile } from "node:fs/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { exported } from "../../src/db/export-nouns.ts";
import { formatSchema } from "../../src/work/export-json-schema.ts";
import { openExport } from "../../src/work/export-reading.ts";
import { openMadeDemo } from "../demo/studio.ts";
import { exportOf, type Files, filesIn, rowsIn } from "../exports.ts";

let demo: Database;
let zip: Buffer;
let files: Files;
beforeAll(async () => {
  demo = await openMadeDemo();
  zip = await exportOf(demo.db);
  files = await filesIn(zip);
});
afterAll(() => demo.close());

describe("an export of the demo", () => {
  it("reads back, every row by its schema", async () => {
    const opened = await openExport({ bytes: zip });
    let rows = 0;
    for (const noun of opened.nouns) for await (const _ of opened.rows(noun)) rows += 1;
    const counts = Object.values(opened.manifest.counts);
    expect(rows).toBe(counts.reduce((sum, count) => sum + count, 0));
    expect(rows).toBeGreaterThan(1000);
  });

  it("has its files in a fixed order, the manifest last", () => {
    const names = [...files.keys()];
    expect(names.slice(0, exported.length)).toEqual(exported.map(({ name }) => `${name}.jsonl`));
    expect(names.at(-1)).toBe("manifest.json");
    const pictures = names.filter((name) => name.startsWith("pictures/"));
    expect(pictures.length).toBe(rowsIn(files, "pictureBytes").length);
    expect(pictures).toEqual([...pictures].sort());
  });

  it("is the same to the byte when it is made again, but for when", async () => {
    expect((await exportOf(demo.db)).equals(zip)).toBe(true);
    const later = await filesIn(await exportOf(demo.db, new Date("2026-11-21T09:00:00Z")));
    const differs = [...files].filter(([name, bytes]) => !later.get(name)?.equals(bytes));
    expect(differs.map(([name]) => name)).toEqual(["manifest.json"]);
  });
});

it("is described by the JSON Schema beside the docs", async () => {
  const kept = await readFile(new URL("../../docs/format.schema.json", import.meta.url), "utf8");
  expect(JSON.parse(kept), "npm run format writes it anew").toEqual(
    JSON.parse(JSON.stringify(formatSchema())),
  );
});
