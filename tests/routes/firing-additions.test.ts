import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { firingWithTilesJson } from "../../src/routes/firing-json.ts";
import { bringEvidence, made } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Firing = ReturnType<typeof firingWithTilesJson>;
type Faulty = { errors: { path: string; says: string }[] };

describe("what is added to a firing later", () => {
  let studio: TestStudio;
  let kilns = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const fire = async (): Promise<string> => {
    kilns += 1;
    const kiln = await made<{ slug: string }>(studio, "/kilns", { name: `Wren ${kilns}` });
    const given = { kiln: kiln.slug, kind: "oxidation", cone: "6" };
    const startedAt = "2026-09-01T08:00:00Z";
    return `/firings/${(await made<{ id: string }>(studio, "/firings", { ...given, startedAt })).id}`;
  };
  const post = (who: Who, path: string, json: object) => studio.send(who, path, { json });
  const read = (path: string) => studio.json<Firing>("visitor", path);
  const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();
  const faultsOf = async (answer: Response) =>
    ((await answer.json()) as Faulty).errors.map(({ path }) => path);
  const standingOf = async (slug: string) => {
    const { standing } = await studio.json<{ standing: { is: string } }>(
      "manager",
      `/recipes/${slug}`,
    );
    return standing.is;
  };

  const six = { cone: "6", bendDegrees: 90, place: "top shelf" };
  const used = { energy: "electricity", amount: "58", unit: "kWh" };
  const adders: [Who, number][] = [
    ["visitor", 401],
    ["other member", 403],
    ["author", 201],
    ["reviewer", 201],
    ["manager", 201],
  ];

  describe("witness cones", () => {
    it.each(adders)("answer the %s who adds one with %i", async (who, status) => {
      const path = await fire();
      expect((await post(who, `${path}/witness`, six)).status).toBe(status);
      const { witness } = await read(path);
      expect(witness).toEqual(status === 201 ? [{ ...six, reads: "reached" }] : []);
    });

    it.each<[string, object, string[]]>([
      ["no cone", { bendDegrees: 90 }, ["cone"]],
      ["a cone as a number", { ...six, cone: 6 }, ["cone"]],
      ["no bend", { cone: "6" }, ["bendDegrees"]],
      ["a bend past flat", { ...six, bendDegrees: 181 }, ["bendDegrees"]],
      ["a field that is none", { ...six, moon: "full" }, ["moon"]],
    ])("are refused with %s, by the field", async (_, sent, paths) => {
      const path = await fire();
      const answer = await post("author", `${path}/witness`, sent);
      expect(answer.status).toBe(422);
      expect(await faultsOf(answer)).toEqual(paths);
      expect((await read(path)).witness).toEqual([]);
    });

    it("stand one behind the other, whoever is first, and never more than 32", async () => {
      const path = await fire();
      const all = await Promise.all(
        Array.from({ length: 6 }, (_, at) =>
          post("author", `${path}/witness`, { ...six, bendDegrees: at * 10 }),
        ),
      );
      expect(all.map(({ status }) => status)).toEqual(Array(6).fill(201));
      const bends = (await read(path)).witness.map(({ bendDegrees }) => bendDegrees);
      expect([...bends].sort((a, b) => a - b)).toEqual([0, 10, 20, 30, 40, 50]);
      for (let at = 6; at < 32; at++) await post("author", `${path}/witness`, six);
      const answer = await post("author", `${path}/witness`, six);
      expect(answer.status).toBe(422);
      expect(await answer.text()).toContain("32 witness cones are on record");
      expect((await read(path)).witness).toHaveLength(32);
    });

    it("are taken from a form, and one double tap adds one", async () => {
      const path = await fire();
      const form = { cone: "6", bendDegrees: "90", place: "", idempotencyKey: `once ${path}` };
      for (const _ of [1, 2]) {
        const answer = await studio.send("author", `${path}/witness`, { form });
        expect([answer.status, answer.headers.get("location")]).toEqual([303, path]);
      }
      expect((await read(path)).witness).toHaveLength(1);
      const wrong = { ...form, idempotencyKey: `twice ${path}`, bendDegrees: "<far>" };
      const again = await studio.send("author", `${path}/witness`, { form: wrong });
      expect(again.status).toBe(422);
      const page = await again.text();
      expect(page).toContain('value="&lt;far&gt;"');
      expect(page).toMatch(/<details open=""><summary>Add a witness cone/);
      expect(page).toContain('href="#field-bendDegrees"');
    });
  });

  describe("costs", () => {
    it.each(adders)("answer the %s who puts one down with %i", async (who, status) => {
      const path = await fire();
      expect((await post(who, `${path}/costs`, used)).status).toBe(status);
      const { cost } = await read(path);
      expect(cost?.amount ?? null).toBe(status === 201 ? "58" : null);
    });

    it("count by the newest, with the price of the firing and of each unit", async () => {
      const path = await fire();
      await post("author", `${path}/costs`, used);
      expect(await pageOf("visitor", path)).toContain("what it cost is not told");
      const priced = { ...used, amount: "58", price: "16.24", currency: "gbp" };
      await post("author", `${path}/costs`, priced);
      expect((await read(path)).cost).toMatchObject({
        amount: "58",
        price: "16.24",
        perUnit: "0.28",
        currency: "GBP",
        by: { name: "Rukmini Vale" },
      });
      expect(await pageOf("visitor", path)).toMatch(
        /58 kWh of electricity<\/strong>; 16.24 GBP for the firing, 0.28 GBP for each kWh/,
      );
    });

    it.each<[string, object, string[]]>([
      ["an energy that is none", { ...used, energy: "hope" }, ["energy"]],
      ["no amount", { ...used, amount: undefined }, ["amount"]],
      ["less than nothing", { ...used, amount: "-1" }, ["amount"]],
      ["too fine an amount", { ...used, amount: "1.0001" }, ["amount"]],
      ["a unit that is none", { ...used, unit: "BTU" }, ["unit"]],
      ["a price without its currency", { ...used, price: "1" }, ["currency"]],
      ["a currency without a price", { ...used, currency: "GBP" }, ["price"]],
      ["a currency that is none", { ...used, price: "1", currency: "P1" }, ["currency"]],
    ])("are refused with %s, by the field", async (_, sent, paths) => {
      const path = await fire();
      const answer = await post("author", `${path}/costs`, sent);
      expect(answer.status).toBe(422);
      expect(await faultsOf(answer)).toEqual(paths);
      expect((await read(path)).cost).toBeNull();
    });

    it("stay in the form where something is wrong", async () => {
      const path = await fire();
      const form = { energy: "gas", amount: "lots", unit: "m3", price: "", currency: "" };
      const answer = await studio.send("author", `${path}/costs`, { form });
      expect(answer.status).toBe(422);
      const page = await answer.text();
      expect(page).toContain('value="lots"');
      expect(page).toMatch(/value="m3" selected/);
      expect(page).toMatch(/<details open=""><summary>Put down what it used/);
    });
  });

  describe("a withdrawal", () => {
    const why = "These were the cones of <another> firing.";

    it.each<[Who, number]>([
      ["visitor", 401],
      ["other member", 403],
      ["reviewer", 403],
      ["author", 200],
      ["manager", 200],
    ])("answers the %s with %i", async (who, status) => {
      const path = await fire();
      const answer = await studio.send(who, `${path}/withdrawal`, { method: "PUT", json: { why } });
      expect(answer.status).toBe(status);
      const { withdrawn } = await read(path);
      expect(withdrawn?.why ?? null).toBe(status === 200 ? why : null);
      if (status === 403) expect(await answer.text()).toContain("a manager can withdraw it");
    });

    it("needs its reason, and keeps the form open without", async () => {
      const path = await fire();
      const answer = await studio.send("author", `${path}/withdrawal`, { form: { why: " " } });
      expect(answer.status).toBe(422);
      expect(await answer.text()).toMatch(/<details open=""><summary>Withdraw this firing/);
      expect((await read(path)).withdrawn).toBeNull();
    });

    it("is for good, and nothing is added to the firing after it", async () => {
      const path = await fire();
      const done = await studio.send("author", `${path}/withdrawal`, { form: { why } });
      expect([done.status, done.headers.get("location")]).toEqual([303, path]);
      for (const [rest, json] of [
        ["/withdrawal", { why: "Again." }],
        ["/witness", six],
        ["/costs", used],
        ["/readings", [[0, 20]]],
      ] as const) {
        const answer = await post("manager", `${path}${rest}`, json);
        expect(answer.status, rest).toBe(409);
        expect(await answer.text()).toContain("withdrawn before");
      }
      expect(await read(path)).toMatchObject({
        withdrawn: { why },
        witness: [],
        cost: null,
        readings: null,
      });
      const page = await pageOf("author", path);
      expect(page).toContain("These were the cones of &lt;another&gt; firing.");
      expect(page).not.toContain('<form method="post" action="/firings');
      expect(await pageOf("visitor", "/firings")).toContain(
        "Withdrawn: its cones witness nothing.",
      );
    });

    it("keeps new tiles from naming it", async () => {
      const [slug, path] = [await publish(studio), await fire()];
      await post("author", `${path}/withdrawal`, { why });
      const tile = { revision: 1, cone: "6", firing: path.split("/").at(-1) };
      const answer = await post("author", `/recipes/${slug}/tiles`, tile);
      expect(answer.status).toBe(422);
      expect(await faultsOf(answer)).toEqual(["firing"]);
    });

    it("ends what rests on its cones, and its tiles' pages say so", async () => {
      const slug = await publish(studio, { different: { use: "functional" } });
      const { tile } = await bringEvidence(studio, slug);
      const review = { revision: 1, verdict: "approve", for: "functional", reasons: "Sound." };
      const approved = await post("reviewer", `/recipes/${slug}/reviews`, review);
      expect(approved.status).toBe(201);
      expect(await standingOf(slug)).toBe("approved");

      const { firing } = await studio.json<{ firing: { id: string } }>("author", `/tiles/${tile}`);
      await post("manager", `/firings/${firing.id}/withdrawal`, { why });
      expect(await standingOf(slug)).not.toBe("approved");
      const page = await pageOf("visitor", `/tiles/${tile}`);
      expect(page).toContain("That firing was withdrawn:");
      expect(page).toContain("These were the cones of &lt;another&gt; firing.");
      expect(await pageOf("visitor", `/recipes/${slug}`)).toContain("its firing was withdrawn");
    });
  });

  it("is told in the record, in sentences", async () => {
    const path = await fire();
    await post("author", `${path}/witness`, six);
    await post("author", `${path}/costs`, used);
    await post("author", `${path}/withdrawal`, { why: "Another firing's." });
    const page = await pageOf("manager", "/events");
    expect(page).toContain("added a witness cone 6, bent 90°, to a firing:");
    expect(page).toContain("put down what a firing used:");
    expect(page).toContain("withdrew a firing:");
  });
});
