import { execFileSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { RestateInput } from "../../src/work/restate.ts";
import { mostWaiting, openSolver } from "../../src/work/solver.ts";
import { generatedProblem } from "../chem/shelf-problems.ts";

const chalk = { key: "chalk", name: "Chalk", moles: { CaO: 1 }, loss: 44 };
const sand = { key: "sand", name: "Sand", moles: { SiO2: 1.664 }, loss: 0 };
const goal: RestateInput = {
  wanted: { CaO: 1, SiO2: 3 },
  counted: ["CaO", "SiO2"],
  bounds: {},
  shelf: [chalk, sand],
};

/** Many powders of which few may be taken: more than a moment's work. */
const long: RestateInput = {
  ...goal,
  wanted: { CaO: 0.5, K2O: 0.2, Na2O: 0.2, MgO: 0.1, Al2O3: 0.4, SiO2: 3.2, B2O3: 0.3, TiO2: 0.1 },
  counted: ["CaO", "K2O", "Na2O", "MgO", "Al2O3", "SiO2", "B2O3", "TiO2"],
  most: 4,
  shelf: Array.from({ length: 40 }, (_, at) => ({
    key: `powder ${at}`,
    name: `Powder ${at}`,
    loss: 0,
    moles: Object.fromEntries(
      (["CaO", "K2O", "Na2O", "MgO", "Al2O3", "SiO2", "B2O3", "TiO2"] as const).map((oxide, of) => [
        oxide,
        ((at * 37 + of * 101 + at * of * 13) % 97) / 97,
      ]),
    ),
  })),
};

const member = { member: true, address: "10.0.0.1" };
const visitor = (address: string) => ({ member: false, address });

describe("the solver's thread", () => {
  const solver = openSolver({ member: 20, visitor: 2 });
  afterAll(() => solver.end());

  it("answers from source, and equal questions equally", async () => {
    const first = await solver.solve("restate", goal, { asker: member });
    expect(first).toMatchObject({ kind: "done", output: { kind: "mix", status: "exact" } });
    expect(await solver.solve("restate", goal, { asker: member })).toEqual(first);
  });

  it("has people of the studio go before visitors", async () => {
    const order: string[] = [];
    const ask = (name: string, asker: typeof member) =>
      solver.solve("restate", goal, { asker }).then(() => order.push(name));
    await Promise.all([
      ask("first", visitor("10.0.1.1")),
      ask("visitor", visitor("10.0.1.2")),
      ask("member", member),
    ]);
    expect(order).toEqual(["first", "member", "visitor"]);
  });

  it("takes one task at a time from a visitor's address, and several from a member's", async () => {
    const asker = visitor("10.0.2.1");
    const both = await Promise.all([
      solver.solve("restate", goal, { asker }),
      solver.solve("restate", goal, { asker }),
    ]);
    expect(both.map(({ kind }) => kind)).toEqual(["done", "busy"]);
    expect(both[1]).toMatchObject({ retryAfterSeconds: expect.any(Number) });
    const members = await Promise.all(
      [1, 2].map(() => solver.solve("restate", goal, { asker: member })),
    );
    expect(members.map(({ kind }) => kind)).toEqual(["done", "done"]);
  });

  it("lets so many wait, and tells the next when to come again", async () => {
    const asked = Array.from({ length: mostWaiting + 2 }, () =>
      solver.solve("restate", goal, { asker: member }),
    );
    const kinds = (await Promise.all(asked)).map(({ kind }) => kind);
    expect(kinds).toEqual([...Array(mostWaiting + 1).fill("done"), "busy"]);
  });

  it("stops at once for who leaves, and works on for the next", async () => {
    const leaving = new AbortController();
    const left = solver.solve("restate", long, { asker: member, signal: leaving.signal });
    const waiting = new AbortController();
    const gone = solver.solve("restate", goal, { asker: member, signal: waiting.signal });
    const next = solver.solve("restate", goal, { asker: member });
    waiting.abort();
    expect(await gone).toEqual({ kind: "cancelled" });
    leaving.abort();
    expect(await left).toEqual({ kind: "cancelled" });
    expect(await next).toMatchObject({ kind: "done" });
  });
});

it("has a task whose time is up hand in what it has by itself", async () => {
  const hasty = openSolver({ member: 1e-9, visitor: 1e-9 });
  const problem = generatedProblem({ seed: 1, powders: 4, recipes: 3 });
  const noneIsThere = { ...problem, have: 0, bases: problem.targets.map(() => [-1]) };
  const answer = await hasty.solve("shelf-reach", noneIsThere, { asker: member });
  await hasty.end();
  expect(answer).toMatchObject({ kind: "done", output: { stopped: "clock" } });
  if (answer.kind === "done") expect(answer.output.beyond).toHaveLength(3);
});

it("ends a task that never ends with its thread, with the best it told of, and begins the next", async () => {
  const endless = openSolver(
    { member: 0.01, visitor: 0.01 },
    new URL("./endless.worker.ts", import.meta.url),
  );
  const told: unknown[] = [];
  const options = { asker: member, progress: (best: unknown) => told.push(best) };
  const [some, none] = await Promise.all([
    endless.solve("restate", goal, options),
    endless.solve("restate", null as unknown as RestateInput, options),
  ]);
  await endless.end();
  expect(some).toEqual({ kind: "stopped", stopped: "clock", best: goal });
  expect(told).toEqual([goal]);
  expect(none).toEqual({ kind: "nothing", stopped: "clock" });
});

it("throws what breaks in the thread, and goes on", async () => {
  const solver = openSolver();
  const broken = { ...goal, shelf: null } as unknown as RestateInput;
  await expect(solver.solve("restate", broken, { asker: member })).rejects.toThrow(/restate/);
  expect(await solver.solve("restate", goal, { asker: member })).toMatchObject({ kind: "done" });
  await solver.end();
});

it("answers from what is built, and keeps no process alive", () => {
  const root = resolve(import.meta.dirname, "../..");
  const folder = mkdtempSync(join(tmpdir(), "built-"));
  try {
    cpSync(join(root, "package.json"), join(folder, "package.json"));
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"));
    // What the thread needs, by the settings of the build; all of it takes three times as long.
    const settings = {
      extends: join(root, "tsconfig.build.json"),
      compilerOptions: { outDir: join(folder, "dist"), rootDir: root, sourceMap: false },
      files: ["solver.ts", "solver.worker.ts"].map((file) => join(root, "src/work", file)),
      include: [],
    };
    writeFileSync(join(folder, "tsconfig.json"), JSON.stringify(settings));
    execFileSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", folder]);
    expect(existsSync(join(folder, "dist/src/work/solver.worker.js"))).toBe(true);
    const script = `
      const { solver } = await import(${JSON.stringify(join(folder, "dist/src/work/solver.js"))});
      const goal = ${JSON.stringify(goal)};
      const solved = await solver.solve("restate", goal, { asker: { member: true, address: "" } });
      console.log(JSON.stringify(solved));`;
    const said = execFileSync(process.execPath, ["--input-type=module", "-e", script], {
      cwd: folder,
      timeout: 20_000,
    });
    expect(JSON.parse(String(said))).toMatchObject({ kind: "done", output: { status: "exact" } });
  } finally {
    rmSync(folder, { recursive: true });
  }
});
