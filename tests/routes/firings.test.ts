import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findFiring } from "../../src/db/firings.ts";
import { firings as stored, tiles, witnessCones } from "../../src/db/schema/index.ts";
import type { firingWithTilesJson } from "../../src/routes/firing-json.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Firing = ReturnType<typeof firingWithTilesJson>;
type List = { items: Firing[]; next: string | null };

const gannet = {
  kiln: "gannet",
  kind: "oxidation",
  cone: "6",
  startedAt: "2026-03-01T09:30:00+01:00",
  programme: [
    { celsiusPerHour: 150, toCelsius: 620, holdMinutes: 30 },
    { celsiusPerHour: 60, toCelsius: "1220" },
  ],
  witness: [
    { cone: "5", bendDegrees: 130, place: "middle shelf" },
    { cone: "6", bendDegrees: "90" },
    { cone: "7", bendDegrees: 10 },
  ],
  remark: "Packed tight.",
};

describe("firings", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    for (const name of ["Gannet", "Wren"]) {
      await studio.send("manager", "/kilns", { json: { name } });
    }
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const add = async (who: Who, json: object = gannet) => {
    const answer = await studio.send(who, "/firings", { json });
    const firing = (await answer.json()) as Firing & { errors: { path: string }[] };
    return { answer, firing };
  };
  const count = async () => [await studio.db.$count(stored), await studio.db.$count(witnessCones)];
  const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who puts one on record with %i", async (who, status) => {
    const before = await count();
    const { answer, firing } = await add(who);
    expect(answer.status).toBe(status);
    if (status !== 201) return expect(await count()).toEqual(before);
    expect(answer.headers.get("location")).toBe(`/firings/${firing.id}`);
    expect(await studio.json("visitor", `/firings/${firing.id}`)).toEqual(firing);
    expect(firing).toMatchObject({
      kiln: { slug: "gannet", name: "Gannet" },
      startedAt: "2026-03-01T08:30:00.000Z",
      programme: [gannet.programme[0], { celsiusPerHour: 60, toCelsius: 1220, holdMinutes: 0 }],
      witness: [
        { cone: "5", bendDegrees: 130, place: "middle shelf", reads: "past" },
        { cone: "6", bendDegrees: 90, place: "", reads: "reached" },
        { cone: "7", bendDegrees: 10, place: "", reads: "not-reached" },
      ],
      tiles: [],
    });
  });

  const witness = (row: object) => ({ ...gannet, witness: [gannet.witness[1], row] });
  const step = (row: object) => ({ ...gannet, programme: [row] });

  it.each<[string, object, string]>([
    ["no kiln", { ...gannet, kiln: undefined }, "kiln"],
    ["a kiln that nobody has", { ...gannet, kiln: "puffin" }, "kiln"],
    ["a kind that is none", { ...gannet, kind: "vacuum" }, "kind"],
    ["a cone as a number", { ...gannet, cone: 6 }, "cone"],
    ["no time", { ...gannet, startedAt: undefined }, "startedAt"],
    ["a day without a time", { ...gannet, startedAt: "2026-03-01" }, "startedAt"],
    ["a day that is none", { ...gannet, startedAt: "2026-02-30T10:00Z" }, "startedAt"],
    ["an hour that is none", { ...gannet, startedAt: "2026-02-03T25:00Z" }, "startedAt"],
    ["a time to come", { ...gannet, startedAt: "2999-01-01T00:00Z" }, "startedAt"],
    ["a time before kilns were kept", { ...gannet, startedAt: "0001-01-01T00:00Z" }, "startedAt"],
    ["a bend past flat", witness({ cone: "6", bendDegrees: 181 }), "witness.1.bendDegrees"],
    [
      "a bend that is no whole number",
      witness({ cone: "6", bendDegrees: 1.5 }),
      "witness.1.bendDegrees",
    ],
    ["a bend without a cone", witness({ bendDegrees: 90 }), "witness.1.cone"],
    ["a cone without its bend", witness({ cone: "6" }), "witness.1.bendDegrees"],
    [
      "a rate of nothing",
      step({ celsiusPerHour: 0, toCelsius: 600 }),
      "programme.0.celsiusPerHour",
    ],
    ["a heat no kiln has", step({ celsiusPerHour: 100, toCelsius: 1900 }), "programme.0.toCelsius"],
    ["a step without its end", step({ celsiusPerHour: 100 }), "programme.0.toCelsius"],
    ["too many steps", { ...gannet, programme: Array(25).fill(gannet.programme[0]) }, "programme"],
    ["too many cones", { ...gannet, witness: Array(33).fill(gannet.witness[0]) }, "witness"],
    ["a field that is none", { ...gannet, moon: "full" }, "moon"],
  ])("refuses %s, by its field, and keeps nothing", async (_, json, path) => {
    const before = await count();
    const { answer, firing } = await add("author", json);
    expect(answer.status).toBe(422);
    expect(firing.errors.map((fault) => fault.path)).toEqual([path]);
    expect(await count()).toEqual(before);
  });

  const form = {
    kiln: "wren",
    kind: "bisque",
    cone: "04",
    startedAt: "2026-03-02T18:15",
    "witness.0.cone": "",
    "witness.0.bendDegrees": "",
    "witness.2.cone": "04",
    "witness.2.bendDegrees": "75",
    "witness.2.place": "at the <peephole>",
    "programme.0.celsiusPerHour": "",
    "programme.3.celsiusPerHour": "100",
    "programme.3.toCelsius": "1060",
    "programme.3.holdMinutes": "",
    remark: "",
  };

  it("takes a form, its time as UTC and its blank rows as nothing", async () => {
    const answer = await studio.send("author", "/firings", { form });
    expect(answer.status).toBe(303);
    const location = answer.headers.get("location") ?? "";
    expect(await studio.json("visitor", location)).toMatchObject({
      kind: "bisque",
      startedAt: "2026-03-02T18:15:00.000Z",
      witness: [{ cone: "04", bendDegrees: 75, place: "at the <peephole>", reads: "reached" }],
      programme: [{ celsiusPerHour: 100, toCelsius: 1060, holdMinutes: 0 }],
    });
  });

  it("shows the form again with what was typed in it, each fault at its row", async () => {
    const wrong = { ...form, cone: "", "witness.2.bendDegrees": "far" };
    const answer = await studio.send("author", "/firings", { form: wrong });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('href="#field-cone"');
    expect(page).toContain('href="#field-witness.2.bendDegrees"');
    expect(page).toContain('id="field-witness.2.bendDegrees"');
    expect(page).toContain('value="far"');
    expect(page).toContain('value="at the &lt;peephole&gt;"');
    expect(page).toContain('value="2026-03-02T18:15"');
    expect(page).toContain('<option value="wren" selected="">');
  });

  it("makes one firing of a double tap", async () => {
    const before = await studio.db.$count(stored);
    const sent = { form: { ...form, idempotencyKey: "one and the same" } };
    const both = await Promise.all([0, 1].map(() => studio.send("author", "/firings", sent)));
    const [one, other] = both.map((answer) => answer.headers.get("location"));
    expect(one).toBeTruthy();
    expect(other).toBe(one);
    expect(await studio.db.$count(stored)).toBe(before + 1);
  });

  it("opens the form with six rows of each, for people of the studio", async () => {
    expect((await studio.send("visitor", "/firings/new")).status).toBe(401);
    const page = await pageOf("author", "/firings/new?kiln=wren");
    expect(page.match(/name="witness\.\d\.cone"/g)).toHaveLength(6);
    expect(page.match(/name="programme\.\d\.toCelsius"/g)).toHaveLength(6);
    expect(page).toContain('<option value="wren" selected="">');
    expect(page).toContain("all times here are UTC");
    expect(page).toContain("Kiln fumes");
  });

  it("tells on its page what it came to, by the witness cones and not the programme", async () => {
    const { firing } = await add("author");
    const page = await pageOf("visitor", `/firings/${firing.id}`);
    expect(page).toContain("Believe the witness cone beside the ware, not the programme");
    expect(page).toContain("Cone 6 (about 1222 °C at 60 °C an hour");
    expect(page).toContain("Cone 7 ends near");
    expect(page).toMatch(/Cone 5<\/th><td>130°<\/td><td>past it<\/td><td>middle shelf/);
    expect(page).toMatch(/Cone 6<\/th><td>90°<\/td><td>down: this cone was reached<\/td>/);
    expect(page).toMatch(/Cone 7<\/th><td>10°<\/td><td>not reached<\/td>/);
    expect(page).toContain("1 March 2026, 08:30 UTC");
    expect(page).toContain(
      "From 20 °C: 150 °C an hour up to 620 °C, held for 30 minutes; 60 °C an",
    );
    expect(page).toContain("14 h 30 min in all.");
    expect(page).toMatch(/<td>150<\/td><td>620<\/td><td>30<\/td><td>4 h 30 min<\/td>/);
    expect(page).toContain("Kiln fumes");
    expect(page).toContain('href="/kilns/gannet"');
  });

  it("says so where no cone stood in it and nobody knows the programme", async () => {
    const { kiln, kind, cone, startedAt } = gannet;
    const { answer, firing } = await add("author", { kiln, kind, cone, startedAt });
    expect(answer.status).toBe(201);
    const page = await pageOf("visitor", `/firings/${firing.id}`);
    expect(page).toContain("nobody can say which cone it came to");
    expect(page).toContain("No programme is on record.");
  });

  it("names the tiles that stood in it, as far as the reader may know of them", async () => {
    const lines = await stockShelf(studio);
    const { firing } = await add("author");
    const shown = await publishGlaze(studio, { name: "Slack Water", lines });
    const hidden = await publishGlaze(studio, { name: "Sea Fret", lines, shownTo: "private" });
    const at = new Date("2026-03-05T10:00:00Z");
    for (const glaze of [shown, hidden]) {
      await studio.db.insert(tiles).values({
        id: uuidv7(),
        revisionId: glaze.revision.id,
        cone: "6",
        atmosphere: "oxidation",
        clay: "Loft stoneware",
        remark: "",
        firingId: firing.id,
        place: "top shelf",
        by: studio.ids.author,
        at,
      });
    }
    const path = `/firings/${firing.id}`;
    const names = async (who: Who) =>
      (await studio.json<Firing>(who, path)).tiles.map(({ recipe }) => recipe.name);
    expect(await names("author")).toEqual(["Sea Fret", "Slack Water"]);
    expect(await names("manager")).toEqual(["Sea Fret", "Slack Water"]);
    for (const who of ["visitor", "other member", "reviewer"] as const) {
      expect(await names(who), who).toEqual(["Slack Water"]);
    }
    const page = await pageOf("visitor", path);
    expect(page).toContain("Cone 6, on Loft stoneware, top shelf.");
    expect(page).not.toContain("Sea Fret");
  });

  it("tells the record of it by its kiln and cone", async () => {
    const { firing } = await add("author");
    const { items } = await studio.json<{ items: object[] }>("manager", "/events");
    expect(items.at(-1)).toMatchObject({
      kind: "firing added",
      about: { name: "Gannet, cone 6", href: `/firings/${firing.id}` },
      detail: { kind: "oxidation", cone: "6", witness: 3 },
    });
    expect(await pageOf("manager", "/events")).toContain(
      `put a firing on record: <a href="/firings/${firing.id}">Gannet, cone 6</a>`,
    );
  });

  it("lists them newest first, fifty a page, of all kilns or of one", async () => {
    const other = await openTestStudio();
    for (const name of ["Gannet", "Wren"]) {
      await other.send("manager", "/kilns", { json: { name } });
    }
    // Two begin at each moment, so that a page can end between them.
    for (let number = 0; number < 53; number += 1) {
      const startedAt = new Date(Date.parse("2026-02-01T08:00:00Z") + (number >> 1) * 86_400_000);
      const kiln = number % 10 === 0 ? "wren" : "gannet";
      const json = { ...gannet, kiln, startedAt: startedAt.toISOString(), programme: [] };
      const answer = await other.send("author", "/firings", { json });
      expect(answer.status).toBe(201);
    }
    const first = await other.json<List>("visitor", "/firings");
    const second = await other.json<List>("visitor", `/firings?after=${first.next}`);
    expect([first.items.length, second.items.length, second.next]).toEqual([50, 3, null]);
    const all = [...first.items, ...second.items];
    expect(new Set(all.map(({ id }) => id)).size).toBe(53);
    const times = all.map(({ startedAt }) => startedAt);
    expect(times).toEqual([...times].sort().reverse());
    const page = await (await other.send("visitor", "/firings")).text();
    expect(page).toContain(`href="/firings?after=${first.next}"`);
    expect(page).toContain("Witness cones: cone 5 past it, cone 6 down, cone 7 not reached.");
    expect(page).not.toContain("/firings/new");

    const wren = await other.json<{ firings: List }>("visitor", "/kilns/wren");
    expect(wren.firings.items).toHaveLength(6);
    expect(new Set(wren.firings.items.map(({ kiln }) => kiln.slug))).toEqual(new Set(["wren"]));
    const kiln = await (await other.send("author", "/kilns/gannet")).text();
    expect(kiln).toContain("/firings/new?kiln=gannet");
    await other.close();
  });

  it("knows no firing by nonsense, and no place in the list", async () => {
    for (const id of ["7", "%00", "00000000-0000-7000-8000-000000000000"]) {
      expect((await studio.send("manager", `/firings/${id}`)).status, id).toBe(404);
    }
    expect(await findFiring(studio.db, { id: "gannet" })).toBeUndefined();
    expect((await studio.send("visitor", "/firings?after=7")).status).toBe(422);
  });
});
