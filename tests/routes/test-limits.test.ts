import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { findEvidence } from "../../src/db/evidence.ts";
import { tests as stored } from "../../src/db/schema/index.ts";
import type { testJson } from "../../src/routes/test-json.ts";
import { bringEvidence } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type TestJson = ReturnType<typeof testJson> & { errors: { path: string; says: string }[] };

const functional = { use: "functional" };

describe("leach reports beside the limits that the studio chose", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  beforeEach(() => choose("eu"));
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const choose = async (...jurisdictions: string[]) => {
    const json = { name: "Saltmarsh Lane Studio", showsPublic: true, scaleGrams: "0.1" };
    const sent = { method: "PUT", json: { ...json, jurisdictions } };
    expect((await studio.send("manager", "/studio", sent)).status).toBe(200);
  };
  const figure = (element: string, value: string, more = {}) => ({
    ...{ element, value, unit: "mg/l", specimen: "bowl 1" },
    ...more,
  });
  const leach = (results: object[], more = {}) => ({
    revision: 1,
    kind: "leach",
    method: "As the report names it",
    laboratory: "Demo laboratory, invented",
    articleClass: "category 2",
    outcome: "passed",
    results,
    ...more,
  });
  const add = async (slug: string, json: object) => {
    const answer = await studio.send("author", `/recipes/${slug}/tests`, { json });
    return { status: answer.status, test: (await answer.json()) as TestJson };
  };
  const pageOf = async (path: string) => (await studio.send("visitor", path)).text();

  // Council Directive 84/500/EEC as amended by 2005/31/EC, category 2: Pb 4.0, Cd 0.3 mg/l.
  it.each([
    ["lead over by more than half", [figure("Pb", "6.5")], {}, 422],
    ["cadmium over by a little, and nothing to forgive it", [figure("Cd", "0.4")], {}, 422],
    ["lead over, and called failed", [figure("Pb", "6.5")], { outcome: "failed" }, 201],
    ["lead over, and called unclear", [figure("Pb", "6.5")], { outcome: "unclear" }, 201],
    ["both within", [figure("Pb", "4"), figure("Cd", "0.1")], {}, 201],
    ["lead below a limit that is too high", [figure("Pb", "9", { qualifier: "<" })], {}, 201],
    ["lead by area", [figure("Pb", "9", { unit: "mg/dm2" })], {}, 201],
    ["a class that nobody prints", [figure("Pb", "9")], { articleClass: "jug" }, 201],
    ["copper, which has no limit", [figure("Cu", "90")], {}, 201],
  ])("answers %s as it should", async (_, results, more, status) => {
    const before = await studio.db.$count(stored);
    const { status: answered, test } = await add(await publish(studio), leach(results, more));
    expect(answered).toBe(status);
    expect((await studio.db.$count(stored)) - before).toBe(status === 201 ? 1 : 0);
    if (status === 201) return;
    expect(test.errors.map(({ path }) => path)).toEqual(["outcome"]);
    expect(test.errors[0]?.says).toMatch(/(lead|cadmium) is above the .* of European Union/);
  });

  it("keeps what was typed where it refuses, and offers the printed classes", async () => {
    const form = {
      ...{ revision: "1", kind: "leach", method: "As printed", outcome: "passed" },
      ...{ laboratory: "Demo laboratory, invented", articleClass: "category 2" },
      ...{ "results.0.element": "Pb", "results.0.value": "8", "results.0.unit": "mg/l" },
    };
    const path = `/recipes/${await publish(studio)}/tests`;
    const answer = await studio.send("author", path, { form });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('href="#field-outcome"');
    expect(page).toMatch(/name="results\.0\.value"[^>]*value="8"/);
    expect(page).toContain('list="article-classes"');
    expect(page).toContain('<option value="cups and mugs">');
  });

  it("shows each chosen jurisdiction's judgement with country, edition and source", async () => {
    await choose("eu", "us-fda");
    const slug = await publish(studio);
    const { test } = await add(slug, leach([figure("Pb", "0.2"), figure("Cu", "1")]));
    expect(test.limits.map(({ jurisdiction, element, is }) => [jurisdiction, element, is])).toEqual(
      [
        ["eu", "Pb", "within"],
        ["eu", "Cd", "cannot tell"],
        ["us-fda", "Pb", "cannot tell"],
      ],
    );
    for (const path of [`/tests/${test.id}`, `/recipes/${slug}`, `/recipes/${slug}/tests`]) {
      const page = await pageOf(path);
      expect(page).toContain("Within this limit, as printed, for this article class.");
      expect(page).toContain("as amended by 2005/31/EC");
      expect(page).toContain("For the European Union.");
      expect(page).toContain("Limits change, and are a country");
      expect(page).toContain("No limit for pottery is held here.");
      expect(page).not.toMatch(/food safe|compliant/i);
    }
  });

  it("says which figures are from memory", async () => {
    await choose("iso-6486");
    const slug = await publish(studio);
    const { test } = await add(
      slug,
      leach([figure("Pb", "0.2")], { articleClass: "cups and mugs" }),
    );
    expect(await pageOf(`/tests/${test.id}`)).toContain("From memory, not seen in print.");
  });

  it("says where a manager chooses, where none is chosen", async () => {
    await choose();
    const slug = await publish(studio);
    const { status, test } = await add(slug, leach([figure("Pb", "90")]));
    expect([status, test.limits]).toEqual([201, []]);
    expect(await pageOf(`/tests/${test.id}`)).toMatch(
      /held against no limit[\s\S]*href="\/studio"/,
    );
  });

  it("takes a report called passed for failed once limits are chosen that it is over", async () => {
    await choose();
    // Its melt is like no other's.
    const lines: [string, string][] = [
      ["potash-feldspar", "47"],
      ["whiting", "20"],
      ["quartz", "18"],
      ["kaolin", "15"],
    ];
    const slug = await publish(studio, { different: functional, lines });
    const { tile } = await bringEvidence(studio, slug);
    const { test } = await add(slug, leach([figure("Pb", "90")], { tile }));
    const json = { revision: 1, verdict: "approve", for: "functional", reasons: "Seen." };
    const review = () => studio.send("reviewer", `/recipes/${slug}/reviews`, { json });
    const is = async () =>
      (await studio.json<{ standing: { is: string } }>("visitor", `/recipes/${slug}`)).standing.is;
    expect((await review()).status).toBe(201);
    expect(await is()).toBe("approved");
    await choose("eu");
    expect(await is()).toBe("needs another look");
    expect((await review()).status).toBe(422);
    expect(await pageOf(`/tests/${test.id}`)).toContain("Called passed, and above a limit.");
    const { head } = await studio.json<{ head: { meltDigest: string } }>(
      "visitor",
      `/recipes/${slug}`,
    );
    const evidence = await findEvidence(studio.db, [head.meltDigest]);
    const leached = evidence.get(head.meltDigest)?.tests.filter(({ kind }) => kind === "leach");
    expect(leached?.map(({ outcome }) => outcome)).toEqual(["failed"]);
  });
});
