import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mulberry32 } from "../../src/demo/random.ts";
import { exportOf } from "../exports.ts";
import { madeHostile, mutated } from "../hostile-files.ts";
import { inFrame, type Plan, recipeInFile, sendFile } from "../imports.ts";
import { openRowCounts } from "../row-counts.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const json = JSON.stringify(
  inFrame({
    materials: [{ name: "Quartz", formula: "SiO2", names: [{ name: "Flint", region: "East" }] }],
    recipes: [recipeInFile({ maker: "Somebody" }), recipeInFile()],
  }),
  null,
  1,
).replace(/"amount": "40[.\d]*"/, '"amount": "40"');

const recipes = `recipe,part,material,amount,cone,atmosphere,about
"Slack, Water",base,Potash feldspar,"40,5",6,oxidation,"two ""words"""
,base,Whiting,20,,,
,base,Quartz,25,,,
,addition,Red iron oxide,"2,25",,,
Other,base,Kaolin,15,04,reduction,`;

const analyses = `material;source;measuredOn;SiO₂;Al₂O₃;± Al₂O₃;lossOnIgnition
Quartz;Sheet;2026-03-01;98,1;0,9;0,1;0,4
Loft clay;Sheet;;55;30;;10,2`;

/** Fewer on the embedded engine, which is slower and reads files by the same code. */
const many = process.env.BUCKET_ENGINE === "embedded" ? 160 : 1000;

describe("a file that is broken or means harm", () => {
  let studio: TestStudio;
  let zip: Buffer;
  /** How many rows every table has. */
  let counts: () => Promise<string>;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await publish(studio);
    zip = await exportOf(studio.db);
    counts = await openRowCounts(studio.db);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  /** Taken in with every name that can be, so that whatever is wrong deeper in is met too. */
  const tryIn = async (bytes: Buffer, what: string): Promise<"refused" | "taken"> => {
    const looked = await sendFile(studio, bytes);
    expect([200, 413, 422], `${what}: ${looked.status}`).toContain(looked.status);
    // What cannot be read is refused before anybody asks what is to be done with it.
    if (looked.status !== 200) return refusedInWords(looked, what);
    const fields: Record<string, string> = {
      dryRun: "false",
      leaveOutRefused: "true",
      again: "true",
    };
    const { names } = (await looked.json()) as Plan;
    const matches = names.map(({ name, is }) => [name, is ?? "new"]);
    fields.matches = JSON.stringify(Object.fromEntries(matches));
    const answer = await sendFile(studio, bytes, fields);
    if (answer.status === 201) return "taken";
    return refusedInWords(answer, what);
  };

  const refusedInWords = async (answer: Response, what: string) => {
    expect([413, 422], `${what}: ${answer.status}`).toContain(answer.status);
    const problem = (await answer.json()) as { detail: string; errors?: unknown[] };
    expect(problem.detail, what).toMatch(/\p{L}{2,}/u);
    expect(problem.errors?.length, what).toBeGreaterThan(0);
    return "refused" as const;
  };

  it("is refused in words or taken in right, whatever it is", async () => {
    const hostile = madeHostile({ json, recipes, analyses, zip });
    expect(hostile.length).toBeGreaterThan(70);
    let before = await counts();
    let refused = 0;
    for (const { what, bytes } of hostile) {
      const came = await tryIn(bytes, what);
      const after = await counts();
      if (came === "refused") expect(after, what).toBe(before);
      else expect(after, what).not.toBe(before);
      if (came === "refused") refused += 1;
      before = after;
    }
    expect(refused).toBeGreaterThan(50);
  }, 300_000);

  it(`is met in ${many} ways that nobody thought of`, async () => {
    const random = mulberry32(20261128);
    const good = [json, recipes, analyses].map((text) => Buffer.from(text));
    const came = { refused: 0, taken: 0 };
    let before = await counts();
    for (let time = 0; time < many; time += 1) {
      const base = time % 5 === 4 ? zip : (good[time % 3] as Buffer);
      const bytes = mutated(base, random);
      const outcome = await tryIn(bytes, `mutation ${time}`);
      came[outcome] += 1;
      // Counting every table takes longer than refusing: of those that are refused, some.
      if (outcome === "taken") before = await counts();
      else if (time % 10 === 0) expect(await counts(), `mutation ${time}`).toBe(before);
    }
    expect(await counts()).toBe(before);
    expect(came.refused).toBeGreaterThan(many / 5);
    expect(came.taken).toBeGreaterThan(0);
  }, 600_000);
});
