import { existsSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { mutants } from "../mutants/all.ts";
import { timesIn } from "../mutants/mutant.ts";

const root = new URL("../../", import.meta.url).pathname;

it.each(mutants)("has a place for the bug $name, and tests that should see it", (mutant) => {
  const { file, before, after, tests } = mutant;
  expect(timesIn(readFileSync(`${root}${file}`, "utf8"), before), file).toBe(1);
  expect(after).not.toBe(before);
  for (const test of tests) expect(existsSync(`${root}${test}`), test).toBe(true);
});

it("has enough bugs of every room, each by a name of its own", () => {
  const names = mutants.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  expect(names.length).toBeGreaterThanOrEqual(24);
  for (const room of ["src/chem/", "src/db/", "src/wire/", "src/work/", "views/"])
    expect(mutants.filter(({ file }) => file.startsWith(room)).length, room).toBeGreaterThan(3);
});
