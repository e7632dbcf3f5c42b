import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { mutants } from "./all.ts";
import { type Mutant, withBug } from "./mutant.ts";

/**
 * Puts one bug at a time into a copy of the project and sees whether the tests notice: a test suite
 * that stays green with a bug in it says nothing of that bug.
 *
 *     TEST_DATABASE_URL=postgres://… npm run mutants [-- name …]
 *
 * The named test files run without a bug first: what fails there counts for nothing, and fails all.
 * A name may be the beginning of several.
 */
const project = fileURLToPath(new URL("../../", import.meta.url));
const asked = process.argv.slice(2);
const chosen = mutants.filter(
  ({ name }) => asked.length === 0 || asked.some((beginning) => name.startsWith(beginning)),
);
if (chosen.length === 0) throw new Error(`There is no mutant ${asked.join(", ")}.`);

const folder = mkdtempSync(join(tmpdir(), "bucket-mutants-"));
// Ended from outside, it leaves no copy behind.
for (const signal of ["SIGINT", "SIGTERM"] as const)
  process.once(signal, () => {
    rmSync(folder, { recursive: true, force: true });
    process.exit(1);
  });
try {
  process.exitCode = tryAll(chosen) ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function tryAll(some: readonly Mutant[]): boolean {
  const left = new Set(["node_modules", ".git", "data", "dist"].map((name) => join(project, name)));
  cpSync(project, folder, { recursive: true, filter: (from) => !left.has(from) });
  symlinkSync(join(project, "node_modules"), join(folder, "node_modules"));
  const files = [...new Set(some.flatMap(({ tests }) => tests))];
  const broken = [files.filter(isPure), files.filter((file) => !isPure(file))].flatMap(brokenAmong);
  let missed = 0;
  for (const mutant of some) {
    const { failed, seconds } = tryOne(mutant, broken);
    const [first] = failed;
    if (first === undefined) missed += 1;
    const is = first === undefined ? "NOT CAUGHT" : "caught    ";
    const by = first === undefined ? mutant.breaks : `by “${first}”`;
    console.log(`${is}  ${mutant.name.padEnd(42)} ${mutant.file.padEnd(34)} ${seconds} s, ${by}`);
  }
  console.log(`${some.length - missed} of ${some.length} are caught.`);
  return missed === 0 && broken.length === 0;
}

/** The tests that fail without a bug: one that does tells nothing of the bug. */
function brokenAmong(files: readonly string[]): string[] {
  if (files.length === 0) return [];
  const { failed, passed, says } = runTests(files);
  if (passed === 0) throw new Error(`Without a bug no test passed.\n${says}`);
  console.log(`Without a bug ${passed} tests of ${files.length} files pass.`);
  if (failed.length > 0) console.log(`These do not, and count for nothing: ${failed.join("; ")}.`);
  return failed;
}

function tryOne(mutant: Mutant, broken: readonly string[]): { failed: string[]; seconds: string } {
  const path = join(folder, mutant.file);
  const whole = readFileSync(path, "utf8");
  const began = performance.now();
  writeFileSync(path, withBug(whole, mutant));
  try {
    const { failed, passed, says } = runTests(mutant.tests, [`--bail=${broken.length + 1}`]);
    // A run that came to no end says nothing of the bug.
    if (failed.length === 0 && passed === 0)
      throw new Error(`${mutant.name}: no test ran.\n${says}`);
    const byTheBug = failed.filter((name) => !broken.includes(name));
    return { failed: byTheBug, seconds: ((performance.now() - began) / 1000).toFixed(0) };
  } finally {
    writeFileSync(path, whole);
  }
}

type Report = {
  numPassedTests: number;
  numFailedTests: number;
  testResults: {
    name: string;
    status: string;
    assertionResults: { status: string; fullName: string }[];
  }[];
};

function isPure(file: string): boolean {
  return /^tests\/(chem|views|wire|work|house)\//.test(file);
}

/** Runs some test files of the copy, on Postgres where there is one. */
function runTests(files: readonly string[], more: readonly string[] = []) {
  const report = join(folder, "mutant-report.json");
  rmSync(report, { force: true });
  const engine = process.env.TEST_DATABASE_URL ? "postgres" : "embedded";
  const names = new Set(files.map((file) => (isPure(file) ? "pure" : engine)));
  const projects = [...names].flatMap((name) => ["--project", name]);
  const reporting = [...more, "--reporter=json", `--outputFile=${report}`];
  const { stdout, stderr } = spawnSync(
    process.execPath,
    [join(project, "node_modules/vitest/vitest.mjs"), "run", ...projects, ...reporting, ...files],
    { cwd: folder, encoding: "utf8", maxBuffer: 2 ** 28 },
  );
  const says = `${stdout.slice(-2_000)}${stderr.slice(-2_000)}`;
  try {
    const { numPassedTests, testResults } = JSON.parse(readFileSync(report, "utf8")) as Report;
    // A file that breaks before its first test has none that failed.
    const failed = testResults.flatMap(({ name, status, assertionResults }) => {
      const these = assertionResults.filter((test) => test.status === "failed");
      return status === "failed" && these.length === 0
        ? [name]
        : these.map((test) => test.fullName);
    });
    return { failed, passed: numPassedTests, says };
  } catch {
    return { failed: [] as string[], passed: 0, says };
  }
}
