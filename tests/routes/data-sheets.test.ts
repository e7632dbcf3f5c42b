import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { findMaterial } from "../../src/db/materials.ts";
import type { materialJson } from "../../src/routes/material-json.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Material = ReturnType<typeof materialJson>;

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

// Invented words: what a real powder's sheet says is for its supplier to say.
const sheet = {
  signal: "danger",
  statements: ["Harmful if swallowed.", "Harmful if <inhaled>."],
  precautions: ["Wash hands after handling."],
  issuedOn: "2026-02-01",
  source: "Quayside Ceramics, sheet 12",
};
const put = (who: Who, slug: string, json: object) =>
  studio.send(who, `/materials/${slug}/data-sheets`, { json });
const pageOf = async (who: Who, path: string) =>
  (await (await studio.send(who, path)).text()).replaceAll("&#39;", "'");
const sheetOf = async (slug: string) =>
  (await studio.json<Material>("visitor", `/materials/${slug}`)).dataSheet;

describe("what a safety data sheet says", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("answers the %s who puts it down with %i", async (who, status) => {
    const answer = await put(who, "barium-carbonate", sheet);
    expect(answer.status).toBe(status);
    const now = await sheetOf("barium-carbonate");
    if (status !== 201) return expect(now).toBeNull();
    expect(now).toMatchObject({ ...sheet, by: { name: "Ines Okafor" } });
    const material = await findMaterial(studio.db, "barium-carbonate");
    const events = await listEvents(studio.db, { subjectId: material?.id, limit: 10 });
    const event = events.at(-1);
    expect(event).toMatchObject({ kind: "data sheet added", detail: { signal: "danger" } });
    expect(JSON.stringify(event)).not.toContain("swallowed");
    expect(await pageOf("manager", "/events?kind=data+sheet+added")).toContain(
      "put down what the safety data sheet says of",
    );
  });

  it("says that there is none, and then whose the newest is", async () => {
    expect(await pageOf("visitor", "/materials/whiting")).toContain(
      "Nobody has put down what the supplier's safety data sheet says.",
    );
    await put("manager", "whiting", { signal: "none", source: "an older sheet" });
    await put("manager", "whiting", sheet);
    const page = await pageOf("visitor", "/materials/whiting");
    for (const says of [
      ...["Danger", "Harmful if &lt;inhaled&gt;.", "Quayside Ceramics, sheet 12"],
      ...["1 February 2026", "The supplier's sheet comes before this page"],
    ])
      expect(page).toContain(says);
    expect(page).not.toContain("an older sheet");
    expect(page).not.toContain("/data-sheets/new");
    expect(await pageOf("manager", "/materials/whiting")).toContain("/data-sheets/new");
  });

  it("takes a form with one statement on each line, and keeps what was typed", async () => {
    const path = "/materials/kaolin/data-sheets";
    const form = { signal: "warning", statements: "Dusty.\r\n\r\n  Slippery when wet. \r\n" };
    const refused = await studio.send("manager", path, { form });
    expect(refused.status).toBe(422);
    const page = await refused.text();
    expect(page).toContain('href="#field-source"');
    expect(page).toContain("Slippery when wet.");
    expect(await sheetOf("kaolin")).toBeNull();
    const answer = await studio.send("manager", path, { form: { ...form, source: "a sheet" } });
    expect(answer.headers.get("location")).toBe("/materials/kaolin#data-sheet");
    expect(await sheetOf("kaolin")).toMatchObject({
      signal: "warning",
      statements: ["Dusty.", "Slippery when wet."],
      precautions: [],
      issuedOn: null,
    });
  });

  it.each<[string, object, string]>([
    ["another signal word", { signal: "beware" }, "signal"],
    ["no source", { source: undefined }, "source"],
    ["a date that is none", { issuedOn: "last spring" }, "issuedOn"],
    ["31 statements", { statements: Array(31).fill("Harmful.") }, "statements"],
    ["a statement without end", { precautions: ["x".repeat(301)] }, "precautions"],
  ])("refuses %s, by its field", async (_, different, path) => {
    const answer = await put("manager", "quartz", { ...sheet, ...different });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
    expect(await sheetOf("quartz")).toBeNull();
  });
});
