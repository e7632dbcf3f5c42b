import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const folder = resolve(import.meta.dirname, "../../src/db/migrations");

/**
 * What the version before would fail on: it may still be serving. By the statements of PostgreSQL,
 * "ALTER TABLE". A contraction a release later is listed here with the release that stopped using it.
 */
const contracting = [
  /\bdrop\s+(table|column|view|schema|type)\b/i,
  /\brename\b(?!d)/i,
  /\balter\s+column\b[^;]*\b(type|set\s+not\s+null|drop\s+default)\b/i,
  /^alter\s+table\s+\S+\s+add\s+(?!constraint\b)(?!.*\bdefault\b).*\bnot\s+null\b/is,
];
const allowed: readonly string[] = [];

const statementsOf = (sql: string) =>
  sql
    .replace(/--(?!> statement-breakpoint).*$/gm, "")
    .split(/--> statement-breakpoint/)
    .flatMap((part) => (/\$\$/.test(part) ? [part] : part.split(";")))
    .map((statement) => statement.trim())
    .filter((statement) => /^(alter|drop)\b/i.test(statement));

const contractions = (sql: string) =>
  statementsOf(sql).filter((statement) => contracting.some((rule) => rule.test(statement)));

describe("migrations", () => {
  it("only add: the version before goes on beside them", () => {
    const files = readdirSync(folder).filter((name) => name.endsWith(".sql"));
    expect(files.length).toBeGreaterThan(14);
    for (const name of files) {
      if (allowed.includes(name)) continue;
      expect([name, ...contractions(readFileSync(join(folder, name), "utf8"))]).toEqual([name]);
    }
  });

  it.each([
    "ALTER TABLE recipes DROP COLUMN about",
    "DROP TABLE wishes",
    "ALTER TABLE recipes RENAME COLUMN about TO words",
    "ALTER TABLE recipes RENAME TO glazes",
    'ALTER TABLE "recipes" ALTER COLUMN "about" SET NOT NULL',
    'ALTER TABLE "recipes" ALTER COLUMN "about" SET DATA TYPE integer',
    'ALTER TABLE "recipes" ADD COLUMN "words" text NOT NULL',
  ])("would be told of: %s", (statement) => {
    expect(contractions(`${statement};`)).toEqual([statement]);
  });

  it.each([
    'ALTER TABLE "recipes" ADD COLUMN "words" text',
    'ALTER TABLE "recipes" ADD COLUMN "words" text DEFAULT \'\' NOT NULL',
    'ALTER TABLE "recipes" ADD CONSTRAINT "recipes_words" CHECK (words is not null)',
    'CREATE TABLE "renamed" ("id" uuid NOT NULL)',
  ])("may hold: %s", (statement) => {
    expect(contractions(`${statement};`)).toEqual([]);
  });
});
