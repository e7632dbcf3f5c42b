import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DraftLine } from "../../src/db/drafts.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { revisionStandings, tests as stored } from "../../src/db/schema/index.ts";
import type { testJson } from "../../src/routes/test-json.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type TestJson = ReturnType<typeof testJson>;

const acid = {
  revision: 1,
  kind: "acid",
  method: "Half in vinegar overnight",
  outcome: "passed",
};
const lead = { element: "Pb", qualifier: "<", value: "0.05", unit: "mg/l", specimen: "cup 1" };
const leach = {
  revision: 1,
  kind: "leach",
  method: "As the report names it",
  laboratory: "Demo laboratory, invented",
  results: [lead],
  outcome: "passed",
};

describe("the tests of a glaze", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
    await studio.close();
  });

  /** Each glaze of its own melt, unless it is given lines. */
  const newGlaze = (more: { shownTo?: "private"; lines?: DraftLine[] } = {}) => {
    named += 1;
    const own = lines.map((line, place) =>
      place === 0 ? { ...line, amount: line.amount.plus(named) } : line,
    );
    return publishGlaze(studio, { name: `Neap ${named}`, lines: own, ...more });
  };
  const add = async (who: Who, slug: string, json: object = acid) => {
    const answer = await studio.send(who, `/recipes/${slug}/tests`, { json });
    return { answer, test: (await answer.json()) as TestJson & { errors: unknown } };
  };
  const fire = async (slug: string, more: object = {}): Promise<string> => {
    const json = { revision: 1, cone: "6", clay: "Loft stoneware", ...more };
    const answer = await studio.send("author", `/recipes/${slug}/tiles`, { json });
    return ((await answer.json()) as { id: string }).id;
  };
  const countTests = () => studio.db.$count(stored);
  const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();

  it.each<[Who, number]>([
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
    ["visitor", 401],
  ])("lets whoever of the studio may read the recipe add a test: %s %i", async (who, status) => {
    const { slug } = await newGlaze();
    const { answer, test } = await add(who, slug);
    expect(answer.status).toBe(status);
    const { items } = await studio.json<{ items: TestJson[] }>("visitor", `/recipes/${slug}/tests`);
    expect(items).toHaveLength(status === 201 ? 1 : 0);
    if (status !== 201) return;
    expect(answer.headers.get("location")).toBe(`/tests/${test.id}`);
    expect(await studio.json("visitor", `/tests/${test.id}`)).toEqual(test);
    expect(test).toMatchObject({ ...acid, tile: null, results: [], withdrawn: null });
  });

  it.each<[Who, number]>([
    ["author", 200],
    ["other member", 200],
    ["manager", 200],
    ["reviewer", 403],
    ["visitor", 401],
  ])(
    "lets who added a test, the recipe's owner and managers withdraw it: %s %i",
    async (who, status) => {
      const { slug } = await newGlaze();
      const { test } = await add("other member", slug);
      const sent = { method: "PUT", json: { why: "It was another tile." } };
      const answer = await studio.send(who, `/tests/${test.id}/withdrawal`, sent);
      expect(answer.status).toBe(status);
      const { withdrawn } = await studio.json<TestJson>("visitor", `/tests/${test.id}`);
      expect(withdrawn?.why).toBe(status === 200 ? "It was another tile." : undefined);
    },
  );

  it("does not let on that a private recipe, or a test of it, is there", async () => {
    const { slug } = await newGlaze({ shownTo: "private" });
    const { answer, test } = await add("author", slug);
    expect(answer.status).toBe(201);
    expect((await add("other member", slug)).answer.status).toBe(404);
    for (const who of ["other member", "visitor"] as const) {
      for (const path of [`/tests/${test.id}`, `/recipes/${slug}/tests`])
        expect((await studio.send(who, path)).status, `${who} ${path}`).toBe(404);
    }
    expect((await studio.send("other member", `/recipes/${slug}/tests/new`)).status).toBe(404);
    const withdrawal = { method: "PUT", json: { why: "Mine now" } };
    const path = `/tests/${test.id}/withdrawal`;
    expect((await studio.send("other member", path, withdrawal)).status).toBe(404);
    expect((await studio.send("author", `/tests/${test.id}`)).status).toBe(200);
  });

  it.each<[string, object, string[]]>([
    ["no kind", { ...acid, kind: undefined }, ["kind"]],
    ["a kind that is none", { ...acid, kind: "taste" }, ["kind"]],
    ["no method", { ...acid, method: " " }, ["method"]],
    ["no outcome", { ...acid, outcome: undefined }, ["outcome"]],
    ["a revision that is not there", { ...acid, revision: 2 }, ["revision"]],
    ["a tile that is none", { ...acid, tile: "7" }, ["tile"]],
    ["figures of a test at home", { ...acid, results: [lead] }, ["results"]],
    ["a leach test without a laboratory", { ...leach, laboratory: "" }, ["laboratory"]],
    ["a leach test without a figure", { ...leach, results: [] }, ["results"]],
    ["a leach test with blank rows only", { ...leach, results: [{}, {}] }, ["results"]],
    ["neither laboratory nor figure", { ...acid, kind: "leach" }, ["laboratory", "results"]],
    [
      "a figure without its unit",
      { ...leach, results: [lead, { element: "Cd", value: 1 }] },
      ["results.1.unit"],
    ],
    ["no element", { ...leach, results: [{ ...lead, element: "PB" }] }, ["results.0.element"]],
    ["an oxide", { ...leach, results: [{ ...lead, element: "PbO" }] }, ["results.0.element"]],
    [
      "a figure below nothing",
      { ...leach, results: [{ ...lead, value: "-1" }] },
      ["results.0.value"],
    ],
    [
      "a figure with an exponent",
      { ...leach, results: [{ ...lead, value: "1e-3" }] },
      ["results.0.value"],
    ],
    [
      "a qualifier that is none",
      { ...leach, results: [{ ...lead, qualifier: ">" }] },
      ["results.0.qualifier"],
    ],
    ["a field that is none", { ...acid, verdict: "good" }, ["verdict"]],
  ])("refuses %s, by its field, and keeps nothing", async (_, json, paths) => {
    const { slug } = await newGlaze();
    const before = await countTests();
    const { answer, test } = await add("author", slug, json);
    expect(answer.status).toBe(422);
    expect(test.errors).toMatchObject(paths.map((path) => ({ path })));
    expect(await countTests()).toBe(before);
  });

  it("keeps a leach report as it was printed, and holds it against no limit", async () => {
    const { slug } = await newGlaze();
    const results = [
      { ...lead, value: "0.050", detectionLimit: "0.05" },
      { element: "Cd", qualifier: "=", value: 0.002, unit: "mg/dm²", specimen: "" },
      { element: "Co", value: "0.1", unit: "mg/l", detectionLimit: "0.02", specimen: "cup 1" },
    ];
    const more = { report: "No. 12, 2 March 2026", articleClass: "hollow, 25 mm and deeper" };
    const { answer, test } = await add("author", slug, { ...leach, results, ...more });
    expect(answer.status).toBe(201);
    expect(test).toMatchObject(more);
    expect(test.results).toEqual([
      { ...lead, value: "0.05", detectionLimit: "0.05" },
      {
        ...lead,
        element: "Cd",
        qualifier: "=",
        value: "0.002",
        unit: "mg/dm²",
        specimen: "",
        detectionLimit: null,
      },
      { ...lead, element: "Co", qualifier: "=", value: "0.1", detectionLimit: "0.02" },
    ]);
    const page = await pageOf("visitor", `/tests/${test.id}`);
    expect(page).toContain("Below the method&#39;s limit of 0.05 mg/l.");
    expect(page.match(/No limit for pottery is held here/g)).toHaveLength(1);
    expect(page).toContain("ask your laboratory");
    expect(page).toContain("0.002 mg/dm²");
    expect(page).not.toMatch(/food[ -]safe/i);
  });

  it("takes a form without a script: blank rows are left out, and faults find their fields", async () => {
    const { slug } = await newGlaze();
    const blank = Object.fromEntries(
      [0, 1, 2, 3, 4, 5, 6, 7].flatMap((row) =>
        ["element", "qualifier", "value", "unit", "detectionLimit", "specimen"].map((name) => [
          `results.${row}.${name}`,
          "",
        ]),
      ),
    );
    const form = {
      revision: "1",
      tile: "",
      kind: "leach",
      method: "As printed",
      laboratory: "Demo laboratory, invented",
      outcome: "unclear",
      remark: "",
      ...blank,
      "results.2.element": "Cd",
      "results.2.value": "0.01",
    };
    const path = `/recipes/${slug}/tests`;
    const refused = await studio.send("author", path, { form });
    expect(refused.status).toBe(422);
    const again = await refused.text();
    expect(again).toContain('href="#field-results.2.unit"');
    expect(again).toContain('value="Cd"');
    const whole = { ...form, "results.2.unit": "mg/l", "results.2.qualifier": "<" };
    const answer = await studio.send("author", path, { form: whole });
    expect(answer.status).toBe(303);
    const location = answer.headers.get("location") ?? "";
    expect((await studio.json<TestJson>("visitor", location)).results).toMatchObject([
      { element: "Cd", qualifier: "<", value: "0.01", unit: "mg/l" },
    ]);
  });

  it("makes one test of a double tap", async () => {
    const { slug } = await newGlaze();
    const form = {
      revision: "1",
      kind: "knife",
      method: "Fork",
      outcome: "failed",
      idempotencyKey: "k",
    };
    const path = `/recipes/${slug}/tests`;
    const both = await Promise.all([0, 1].map(() => studio.send("author", path, { form })));
    const [one, other] = both.map((answer) => answer.headers.get("location"));
    expect(one).toMatch(/^\/tests\/[0-9a-f-]{36}$/);
    expect(other).toBe(one);
  });

  it("takes a tile of the same melt only, whichever recipe it was fired for", async () => {
    const glaze = await newGlaze();
    const twin = await publishGlaze(studio, { name: "Neap twin", lines: [...glaze.draft.lines] });
    const other = await newGlaze();
    const [ofTwin, ofOther] = [await fire(twin.slug), await fire(other.slug)];
    const refused = await add("author", glaze.slug, { ...acid, tile: ofOther });
    expect(refused.answer.status).toBe(422);
    expect(refused.test.errors).toMatchObject([{ path: "tile" }]);
    const taken = await add("author", glaze.slug, { ...acid, tile: ofTwin });
    expect(taken.answer.status).toBe(201);
    expect(taken.test.tile).toMatchObject({ id: ofTwin, cone: "6", layered: false });
    expect(await pageOf("visitor", `/tiles/${ofTwin}`)).toContain(`/tests/${taken.test.id}`);
    const { tests } = await studio.json<{ tests: TestJson[] }>("visitor", `/recipes/${twin.slug}`);
    expect(tests.map(({ id }) => id)).toEqual([taken.test.id]);
    expect(await pageOf("visitor", `/recipes/${twin.slug}`)).toContain("which is the same melt");
  });

  it("does not let on which tile was tested where that is private", async () => {
    const glaze = await newGlaze();
    const hidden = await publishGlaze(studio, {
      name: "Neap hidden",
      lines: [...glaze.draft.lines],
      shownTo: "private",
    });
    const tile = await fire(hidden.slug, { clay: "A clay of my own" });
    expect((await add("other member", glaze.slug, { ...acid, tile })).answer.status).toBe(422);
    const { test } = await add("author", glaze.slug, { ...acid, tile });
    expect(test.tile).toMatchObject({ id: tile });
    expect((await studio.json<TestJson>("visitor", `/tests/${test.id}`)).tile).toBeNull();
    const page = await pageOf("visitor", `/recipes/${glaze.slug}`);
    expect(page).toContain("a tile that is not shown to you");
    expect(page).not.toContain("A clay of my own");
  });

  it("says that nothing was tested where nothing was, and never takes vinegar for a laboratory", async () => {
    const { slug } = await newGlaze();
    const nothing = "Nothing was tested: no acid, alkali, dishwasher or leach test is on record.";
    expect(await pageOf("visitor", `/recipes/${slug}`)).toContain(nothing);
    expect(await pageOf("visitor", `/recipes/${slug}`)).not.toContain(`/recipes/${slug}/tests/new`);
    expect(await pageOf("other member", `/recipes/${slug}`)).toContain(
      `/recipes/${slug}/tests/new?revision=1`,
    );
    await add("author", slug);
    const page = await pageOf("visitor", `/recipes/${slug}/tests`);
    expect(page).not.toContain(nothing);
    expect(page).toContain("An acid test at home is not a leach test");
  });

  it("says of a layered tile's test that it speaks for the pair", async () => {
    const beneath = await newGlaze();
    const glaze = await newGlaze();
    const tile = await fire(glaze.slug, { over: `${beneath.slug}@1` });
    const { test } = await add("author", glaze.slug, { ...acid, tile });
    expect(await pageOf("visitor", `/tests/${test.id}`)).toContain("speaks for that pair alone");
  });

  it("withdraws once, in words, and never takes the test away", async () => {
    const { slug } = await newGlaze();
    const { test } = await add("author", slug);
    const path = `/tests/${test.id}/withdrawal`;
    const blank = await studio.send("author", path, { form: { why: "" } });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toContain('href="#field-why"');
    const first = await studio.send("author", path, { form: { why: "Wrong tile." } });
    expect([first.status, first.headers.get("location")]).toEqual([303, `/tests/${test.id}`]);
    const second = await studio.send("manager", path, { form: { why: "Again." } });
    expect(second.status).toBe(409);
    expect(await second.text()).toContain("withdrawn before, and that stands: Wrong tile.");
    const page = await pageOf("visitor", `/recipes/${slug}`);
    expect(page).toContain("test-withdrawn");
    expect(page).toContain("Wrong tile.");
    const events = await listEvents(studio.db, { subjectId: test.id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["test added", "test withdrawn"]);
    expect(JSON.stringify(events)).not.toMatch(/vinegar|Wrong tile/);
    const record = await pageOf("manager", "/events");
    expect(record).toContain("withdrew a test of");
  });

  it("asks anew what the revision counts as, after a test and after its withdrawal", async () => {
    const { slug, revision } = await newGlaze();
    const marks = async () => {
      const rows = await studio.db.select().from(revisionStandings);
      return rows.find(({ revisionId }) => revisionId === revision.id)?.marks;
    };
    const before = (await marks()) ?? 0;
    const { test } = await add("author", slug);
    expect(await marks()).toBe(before + 1);
    await studio.send("author", `/tests/${test.id}/withdrawal`, { json: { why: "Wrong" } });
    expect(await marks()).toBe(before + 2);
  });

  it("explains every kind on the form, and offers the tiles of the melt", async () => {
    const { slug } = await newGlaze();
    const [tile, gone] = [await fire(slug), await fire(slug)];
    await studio.send("author", `/tiles/${gone}/withdrawal`, { json: { why: "Wrong" } });
    const page = await pageOf("author", `/recipes/${slug}/tests/new?revision=1&tile=${tile}`);
    expect(page).toMatch(new RegExp(`value="${tile}" selected`));
    expect(page).not.toContain(gone);
    for (const words of ["It is never a leach test", "ice water", "washing soda", "cutlery"])
      expect(page).toContain(words);
    expect(page.match(/Common practice/g)).toHaveLength(6);
    expect(page.match(/name="results\.\d\.element"/g)).toHaveLength(8);
    for (const revision of ["2", "0", "x"])
      expect(
        (await studio.send("author", `/recipes/${slug}/tests/new?revision=${revision}`)).status,
      ).toBe(404);
    expect((await studio.send("visitor", `/recipes/${slug}/tests/new`)).status).toBe(401);
  });

  it("knows no test by nonsense", async () => {
    for (const id of ["7", "%00", "00000000-0000-7000-8000-000000000000"]) {
      expect((await studio.send("manager", `/tests/${id}`)).status, id).toBe(404);
      const json = { why: "x" };
      const withdrawal = await studio.send("manager", `/tests/${id}/withdrawal`, { json });
      expect(withdrawal.status, id).toBe(404);
    }
  });
});
