import { is } from "drizzle-orm";
import { getTableConfig, PgTable } from "drizzle-orm/pg-core";
import { describe, expect, it } from "vitest";
import { fieldsOf, keysOf } from "../../src/db/export-fields.ts";
import { exported, leftOut } from "../../src/db/export-nouns.ts";
import * as schema from "../../src/db/schema/index.ts";

const tables = Object.entries({ ...schema } as Record<string, unknown>).filter(
  (entry): entry is [string, PgTable] => is(entry[1], PgTable),
);

describe("what an export holds", () => {
  it("names every table of the schema once: as one of its nouns, or as left out for a reason", () => {
    const named = [...exported.map(({ name }) => name), ...Object.keys(leftOut)];
    expect(tables.map(([name]) => name).filter((name) => !named.includes(name))).toEqual([]);
    expect(new Set(named).size).toBe(named.length);
    for (const { name, table } of exported) expect(Object.fromEntries(tables)[name]).toBe(table);
  });

  it("puts what a row refers to before it, but for two columns that look ahead", () => {
    const seen = new Set<PgTable>();
    const ahead: string[] = [];
    for (const { name, table } of exported) {
      for (const { reference } of getTableConfig(table).foreignKeys) {
        const { columns, foreignTable } = reference();
        if (!seen.has(foreignTable)) ahead.push(`${name}.${columns.map((column) => column.name)}`);
      }
      seen.add(table);
    }
    expect(ahead).toEqual(["recipes.forkedFrom", "notes.replyTo"]);
  });

  it("has a key for every noun, by which its rows are in order", () => {
    for (const noun of exported) expect(keysOf(noun).length, noun.name).toBeGreaterThan(0);
    const keys = Object.fromEntries(
      exported.map((noun) => [noun.name, keysOf(noun).map(({ name }) => name)]),
    );
    expect(keys.events).toEqual(["seq"]);
    expect(keys.revisionLines).toEqual(["revisionId", "position"]);
    expect(keys.importedThings).toEqual(["noun", "thingId"]);
    expect(keys.pictureBytes).toEqual(["sha256"]);
  });

  it("holds no password, token or address of a session", () => {
    const fields = exported.flatMap((noun) =>
      fieldsOf(noun).map((field) => `${noun.name}.${field.name}`),
    );
    expect(fields.filter((field) => /password|token|session|secret/i.test(field))).toEqual([]);
    expect(fields).toContain("people.email");
  });
});
