import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findBodies } from "../../src/db/bodies.ts";
import { listEvents } from "../../src/db/events.ts";
import {
  bodySheets,
  revisionStandings,
  bodies as stored,
  tiles,
} from "../../src/db/schema/index.ts";
import type { bodyJson } from "../../src/routes/body-json.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Body = ReturnType<typeof bodyJson>;

const sheet = {
  cones: { low: "5", high: "7" },
  absorption: { percent: "1.8", source: "demo sheet, invented" },
  expansion: { value: 6.1, fromCelsius: 20, toCelsius: "600", source: "demo sheet, invented" },
  colour: "buff",
  about: "Throws well.",
};

describe("bodies", () => {
  let studio: TestStudio;
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newName = () => {
    named += 1;
    return `Loft stoneware ${named}`;
  };
  const add = async (who: Who, json: object = { name: newName(), ...sheet }) => {
    const answer = await studio.send(who, "/bodies", { json });
    const body = (await answer.json()) as Body & { errors: { path: string; says: string }[] };
    return { answer, body };
  };
  const count = async () => [
    await studio.db.$count(stored),
    await studio.db.$count(bodySheets),
    (await listEvents(studio.db, { limit: 10_000 })).length,
  ];

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who adds one with %i", async (who, status) => {
    const before = await count();
    const { answer, body } = await add(who);
    expect(answer.status).toBe(status);
    if (status !== 201) return expect(await count()).toEqual(before);
    expect(answer.headers.get("location")).toBe(`/bodies/${body.slug}`);
    expect(await studio.json("visitor", `/bodies/${body.slug}`)).toEqual(body);
    expect(body.sheet).toMatchObject({
      cones: { low: "5", high: "7" },
      absorption: { percent: "1.8", source: "demo sheet, invented" },
      expansion: { value: "6.1", fromCelsius: 20, toCelsius: 600 },
      colour: "buff",
    });
    expect(body.earlier).toEqual([]);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 403],
    ["reviewer", 201],
    ["manager", 201],
  ])(
    "answers the %s who puts a new sheet on one that the author added with %i",
    async (who, status) => {
      const { body } = await add("author");
      const path = `/bodies/${body.slug}`;
      const json = { cones: { low: "6", high: "6" }, colour: "red" };
      const answer = await studio.send(who, `${path}/sheets`, { json });
      expect(answer.status).toBe(status);
      const after = await studio.json<Body>("visitor", path);
      expect(after.sheet.cones.low).toBe(status === 201 ? "6" : "5");
      expect(after.earlier).toEqual(status === 201 ? [body.sheet] : []);
      const form = await studio.send(who, `${path}/sheets/new`);
      expect(form.status).toBe(status === 201 ? 200 : status);
      expect((await (await studio.send(who, path)).text()).includes("/sheets/new")).toBe(
        status === 201,
      );
    },
  );

  it.each<[string, object, string]>([
    ["no name", sheet, "name"],
    ["no cones", { name: "Grit", colour: "red" }, "cones.low cones.high"],
    ["a cone as a number", { name: "Grit", cones: { low: 5, high: "7" } }, "cones.low"],
    ["cones the wrong way round", { name: "Grit", cones: { low: "4", high: "04" } }, "cones.high"],
    [
      "an absorption without its source",
      { ...sheet, name: "Grit", absorption: { percent: 2 } },
      "absorption.source",
    ],
    [
      "an absorption that no clay has",
      { ...sheet, name: "Grit", absorption: { percent: "41", source: "x" } },
      "absorption.percent",
    ],
    [
      "an absorption that is no number",
      { ...sheet, name: "Grit", absorption: { percent: "1e1", source: "x" } },
      "absorption.percent",
    ],
    [
      "an expansion without its range",
      { ...sheet, name: "Grit", expansion: { value: 6, toCelsius: 600, source: "x" } },
      "expansion.fromCelsius",
    ],
    [
      "a range that ends where it begins",
      {
        ...sheet,
        name: "Grit",
        expansion: { value: 6, fromCelsius: 20, toCelsius: 20, source: "x" },
      },
      "expansion.toCelsius",
    ],
    [
      "more decimals than are kept",
      {
        ...sheet,
        name: "Grit",
        expansion: { value: "6.1234", fromCelsius: 20, toCelsius: 600, source: "x" },
      },
      "expansion.value",
    ],
    ["a field that is none", { ...sheet, name: "Grit", plasticity: 3 }, "plasticity"],
  ])("refuses %s, by its field, and keeps nothing", async (_, json, path) => {
    const before = await count();
    const { answer, body } = await add("author", json);
    expect(answer.status).toBe(422);
    expect(body.errors.map((fault) => fault.path).join(" ")).toBe(path);
    expect(await count()).toEqual(before);
  });

  it("has one body of a name, however it is written", async () => {
    const { body } = await add("author", { name: "Heron porcelain", ...sheet });
    const { answer, body: second } = await add("manager", { name: "HERON  Porcelain", ...sheet });
    expect(answer.status).toBe(422);
    expect(second.errors[0]?.path).toBe("name");
    expect(second.errors[0]?.says).toContain(`/bodies/${body.slug}`);
  });

  it("has one of two who name theirs alike at the same moment", async () => {
    const both = await Promise.all(
      (["author", "manager"] as const).map((who) => add(who, { name: "Spindrift", ...sheet })),
    );
    expect(both.map(({ answer }) => answer.status).sort()).toEqual([201, 422]);
  });

  it("takes a form, and shows it again with what was typed where something is wrong", async () => {
    const form = {
      name: "Wharf <red>",
      "cones.low": "04",
      "cones.high": "",
      "absorption.percent": "9",
      "absorption.source": "",
      "expansion.value": "",
      "expansion.fromCelsius": "",
      colour: "terracotta",
      about: "",
      idempotencyKey: "wharf",
    };
    const refused = await studio.send("author", "/bodies", { form });
    expect(refused.status).toBe(422);
    const page = await refused.text();
    expect(page).toContain('href="#field-cones.high"');
    expect(page).toContain('href="#field-absorption.source"');
    expect(page).toContain('value="Wharf &lt;red&gt;"');
    expect(page).toContain('<option value="04" selected="">');
    expect(page).toContain('value="terracotta"');

    const whole = { ...form, "cones.high": "04", "absorption.source": "boiled here" };
    const made = await studio.send("author", "/bodies", { form: whole });
    expect([made.status, made.headers.get("location")]).toEqual([303, "/bodies/wharf-red"]);
    const shown = await (await studio.send("visitor", "/bodies/wharf-red")).text();
    expect(shown).toContain("Cone 04 ends near 1063 °C");
    expect(shown).toContain("9 %");
    expect(shown).toContain("Source: boiled here");
    expect(shown).toContain("Wharf &lt;red&gt;");

    const without = { "cones.low": "04", "cones.high": "04", "absorption.percent": "8.5" };
    const again = await studio.send("author", "/bodies/wharf-red/sheets", { form: without });
    expect(again.status).toBe(422);
    expect(await again.text()).toContain('value="8.5"');
    const sheets = { ...without, "absorption.source": "boiled again" };
    const said = await studio.send("author", "/bodies/wharf-red/sheets", { form: sheets });
    expect([said.status, said.headers.get("location")]).toEqual([303, "/bodies/wharf-red"]);
    const anew = await (await studio.send("visitor", "/bodies/wharf-red")).text();
    expect(anew.indexOf("boiled again")).toBeLessThan(anew.indexOf("boiled here"));
    expect(anew).toContain("What was said before");
  });

  it("opens the form of a new sheet with what the newest says in it", async () => {
    const { body } = await add("author");
    const page = await (await studio.send("author", `/bodies/${body.slug}/sheets/new`)).text();
    for (const typed of ["1.8", "6.1", "20", "600", "buff"]) {
      expect(page, typed).toContain(`value="${typed}"`);
    }
    expect(page).toContain('<option value="7" selected="">');
  });

  it("has the glazes with a tile on it judged again after a new sheet", async () => {
    const lines = await stockShelf(studio);
    const { body } = await add("author");
    const [row] = await studio.db.select().from(stored).where(eq(stored.slug, body.slug));
    const glaze = await publishGlaze(studio, { name: "Slack Water", lines });
    const at = new Date("2026-03-01T10:00:00Z");
    await studio.db.insert(tiles).values({
      id: "019c0000-0000-7000-8000-000000000001",
      revisionId: glaze.revision.id,
      cone: "6",
      atmosphere: "oxidation",
      clay: body.name,
      remark: "",
      bodyId: row?.id ?? "",
      by: studio.ids.author,
      at,
    });
    const marks = async () =>
      (
        await studio.db
          .select({ marks: revisionStandings.marks, unsettled: revisionStandings.unsettled })
          .from(revisionStandings)
          .where(eq(revisionStandings.revisionId, glaze.revision.id))
      )[0];
    const before = await marks();
    const json = { cones: sheet.cones };
    await studio.send("author", `/bodies/${body.slug}/sheets`, { json });
    expect(await marks()).toEqual({ marks: (before?.marks ?? 0) + 1, unsettled: true });
  });

  it("tells the record of it by its name", async () => {
    const { body } = await add("author");
    await studio.send("author", `/bodies/${body.slug}/sheets`, { json: { cones: sheet.cones } });
    const { items } = await studio.json<{ items: { kind: string; about: unknown }[] }>(
      "manager",
      "/events",
    );
    const about = { name: body.name, href: `/bodies/${body.slug}` };
    expect(items.slice(-2)).toMatchObject([
      { kind: "body added", about },
      { kind: "body sheet added", about },
    ]);
    const page = await (await studio.send("manager", "/events")).text();
    expect(page).toContain(
      `put a new sheet on the body <a href="/bodies/${body.slug}">${body.name}</a>`,
    );
  });

  it("lists them by name, and finds some by their ids", async () => {
    await add("author", { name: "Zostera earthenware", ...sheet });
    await add("author", { name: "alder stoneware", ...sheet });
    const { items, next } = await studio.json<{ items: Body[]; next: null }>("visitor", "/bodies");
    const names = items.map(({ name }) => name);
    expect(names[0]).toBe("alder stoneware");
    expect(names.at(-1)).toBe("Zostera earthenware");
    expect(next).toBeNull();
    const page = await (await studio.send("visitor", "/bodies")).text();
    expect(page).toContain('href="/bodies/alder-stoneware"');
    expect(page).toContain("Fired to cones 5 to 7; absorption 1.8 %; buff.");
    expect(page).not.toContain("/bodies/new");
    expect(await (await studio.send("author", "/bodies")).text()).toContain("/bodies/new");

    const [row] = await studio.db.select().from(stored).where(eq(stored.slug, "alder-stoneware"));
    const found = await findBodies(studio.db, [row?.id ?? "", studio.ids.author]);
    expect([...found.values()].map(({ name }) => name)).toEqual(["alder stoneware"]);
    expect(found.get(row?.id ?? "")?.sheet.cones).toEqual({ low: "5", high: "7" });
  });

  it("knows no body by nonsense", async () => {
    for (const slug of ["none", "%00", "A", "x".repeat(90)]) {
      expect((await studio.send("manager", `/bodies/${slug}`)).status, slug).toBe(404);
      const answer = await studio.send("manager", `/bodies/${slug}/sheets`, { json: sheet });
      expect(answer.status, slug).toBe(404);
    }
    expect((await studio.send("visitor", "/bodies/new")).status).toBe(401);
  });
});
