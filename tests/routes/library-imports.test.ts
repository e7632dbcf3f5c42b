import { readFile } from "node:fs/promises";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  noteMentions,
  notes,
  photos,
  reviewRequests,
  reviews,
  tests,
  tiles,
} from "../../src/db/schema/index.ts";
import { importJsonSchema } from "../../src/routes/import-json-schema.ts";
import { cameraJpeg, pictureForm } from "../camera.ts";
import { bringEvidence } from "../evidence.ts";
import { exportOf } from "../exports.ts";
import { type Import, type Plan, sendFile } from "../imports.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("another studio's export", () => {
  let there: TestStudio;
  let here: TestStudio;
  let zip: Buffer;
  let plan: Plan;
  let brought: Import;

  beforeAll(async () => {
    there = await openTestStudio();
    await stockShelf(there);
    const slug = await publish(there, { different: { use: "functional" } });
    const { tile } = await bringEvidence(there, slug);
    await there.send("author", `/tiles/${tile}/photos`, { form: pictureForm(await cameraJpeg()) });
    const review = await there.send("reviewer", `/recipes/${slug}/reviews`, {
      json: { verdict: "approve", for: "functional", reasons: "All tests passed." },
    });
    if (review.status !== 201) throw new Error(await review.text());
    await there.send("other member", `/recipes/${slug}/notes`, {
      json: { text: "Runs where it is thick, ask @Tam Pellew.", blocking: true },
    });
    await publish(there, { shownTo: "private", lines: [["quartz", "12"]] });
    zip = await exportOf(there.db);

    here = await openTestStudio();
    await stockShelf(here);
    plan = (await (await sendFile(here, zip, { name: "there.zip" })).json()) as Plan;
    const matches = JSON.stringify(plan.matches);
    const answer = await sendFile(here, zip, { name: "there.zip", dryRun: "false", matches });
    if (answer.status !== 201) throw new Error(await answer.text());
    brought = (await answer.json()) as Import;
  });
  afterAll(async () => {
    expect(here.logged).toEqual([]);
    await there.close();
    await here.close();
  });

  it("says on the dry run what comes, how, and what does not", () => {
    expect(plan.recipes).toMatchObject([{ is: "draft" }]);
    expect(plan.analyses.every(({ is }) => is === "here already")).toBe(true);
    expect(plan.leftBehind.join(" ")).toContain("without their pictures");
    expect(plan.leftBehind.join(" ")).toContain("private there or taken back: 1");
  });

  it("brings its reviews, tests, tiles and notes as quoted notes", () => {
    const texts = brought.notes.map(({ text }) => text);
    expect(texts.every((text) => text.startsWith("Quoted from Saltmarsh Lane Studio ("))).toBe(
      true,
    );
    const all = texts.join("\n");
    for (const words of [
      "their review: approve as functional. All tests passed.",
      "dishwasher test there: passed",
      "a tile fired there at cone 6 in oxidation",
      "their objection: Runs where it is thick",
    ])
      expect(all).toContain(words);
  });

  it("counts for nothing: a draft without tile, test, review, objection, picture or call", async () => {
    const { slug } = brought.recipes[0] ?? {};
    const recipe = await here.json("manager", `/recipes/${slug}`);
    expect(recipe).toMatchObject({ standing: { is: "draft" }, shownTo: "studio" });
    for (const table of [tiles, tests, reviews, reviewRequests, photos, noteMentions])
      expect(await here.db.$count(table)).toBe(0);
    expect(await here.db.$count(notes, sql`${notes.blocking}`)).toBe(0);
    const strips = await here.json<{ items: Record<string, unknown>[] }>("manager", "/recipes");
    expect(strips.items.find((strip) => strip.slug === slug)).toMatchObject({
      tested: [],
      picture: null,
    });
    expect(await here.json("manager", "/tiles")).toMatchObject({ items: [] });
  });

  it("can never be made functional by what was found elsewhere", async () => {
    const { slug } = brought.recipes[0] ?? {};
    const answer = await here.send("reviewer", `/recipes/${slug}/reviews`, {
      json: { verdict: "approve", for: "functional", reasons: "They approved it." },
    });
    expect(answer.status).toBe(422);
    const { detail } = (await answer.json()) as { detail: string };
    expect(detail).toMatch(/tile/);
    const missing = await here.db.execute(
      sql`select missing_for_functional(id) as missing from revisions`,
    );
    expect(JSON.stringify(missing)).toMatch(/tile/);
  });

  it("leaves out what is here already when it comes again", async () => {
    const again = (await (await sendFile(here, zip)).json()) as Plan;
    expect(again.recipes).toMatchObject([{ is: "here already" }]);
    expect(again.takenInBefore).toHaveLength(1);
  });

  it("marks the notes as quoted, and says when they were taken back with the rest", async () => {
    const { slug } = brought.recipes[0] ?? {};
    const quoted = async () =>
      (
        await here.json<{ items: { quoted: string }[] }>("manager", `/recipes/${slug}/notes`)
      ).items.map((note) => note.quoted);
    expect(new Set(await quoted())).toEqual(new Set(["with an import"]));
    await here.send("manager", `/imports/${brought.id}/withdrawal`, { json: { why: "Too much." } });
    expect(new Set(await quoted())).toEqual(new Set(["with an import that was taken back"]));
  });

  it("is described as it is read: npm run format writes docs/import.schema.json anew", async () => {
    const kept = await readFile(new URL("../../docs/import.schema.json", import.meta.url), "utf8");
    expect(JSON.parse(kept)).toEqual(JSON.parse(JSON.stringify(importJsonSchema())));
  });
});
