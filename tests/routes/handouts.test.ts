import { Decimal } from "decimal.js";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { studios } from "../../src/db/schema/index.ts";
import type { HandoutJson } from "../../src/routes/handout-json.ts";
import { halves, pictureForm } from "../camera.ts";
import { bringEvidence, fireTile } from "../evidence.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio, type Who } from "../studio.ts";
import { stand } from "../waiting.ts";

describe("handouts", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
    const names = [
      ["quartz", "Silica", "United States", "Buy the flour that passes 200 mesh."],
      ["quartz", "Flint", "United States", ""],
      ["whiting", "Silica", "Elsewhere", "This one is chalk."],
    ];
    for (const [material, name, region, caution] of names)
      await studio.send("manager", `/materials/${material}/names`, {
        json: { name, region, caution },
      });
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const read = (who: Who, path: string) => studio.json<HandoutJson>(who, path);
  const page = async (who: Who, path: string) => (await studio.send(who, path)).text();
  const hand = async (who: Who, path: string, json: object = {}) => {
    const answer = await studio.send(who, `${path}/handouts`, { json });
    const made = (await answer.json()) as {
      id: string;
      link: string;
      recipes: { slug: string; revision: number }[];
      leftOut: string[];
      unseen: number;
      errors?: { path: string; says: string }[];
    };
    return { answer, ...made, path: (made.link ?? "").replace(origin, "") };
  };
  const family = async (name: string, recipes: string[], who: Who = "author") => {
    const answer = await studio.send(who, "/families", { json: { name, recipes } });
    return `/families/${((await answer.json()) as { slug: string }).slug}`;
  };
  const revise = async (at: string, message: string, different: object = {}, amount = "26") => {
    const { head } = await studio.json<{ head: { number: number } }>("author", `/recipes/${at}`);
    const lines: [string, string, ("base" | "addition")?][] = [
      ["potash-feldspar", "40"],
      ["whiting", "20"],
      ["quartz", amount],
      ["kaolin", "15"],
      ["red-iron-oxide", "2", "addition"],
    ];
    const json = { ...revision({ message, ...different }, lines), basedOn: head.number };
    const answer = await studio.send("author", `/recipes/${at}/revisions`, { json });
    if (answer.status !== 201) throw new Error(await answer.text());
  };

  it("say what to ask for in a region, what not to buy, and what has no name there", async () => {
    const { powders } = await read("visitor", `/recipes/${slug}/handout?region=united%20states`);
    const quartz = powders.find(({ material }) => material === "quartz");
    expect(quartz?.called).toEqual({
      name: "Flint",
      caution: "",
      also: ["Silica"],
    });
    expect(quartz?.lookAlikes).toEqual([
      { word: "Silica", name: "Whiting", region: "Elsewhere", caution: "This one is chalk." },
    ]);
    expect(powders.find(({ material }) => material === "kaolin")?.called).toBeNull();
    const shown = await page("visitor", `/recipes/${slug}/handout?region=United%20States`);
    for (const words of [
      "Flint (Silica, here Quartz)",
      "No name of it in United States is on record.",
      "is also a name of Whiting in Elsewhere",
      "Not tested: acid; alkali",
      "Believe the witness",
      "respirator",
      "Kiln fumes",
      "within 20 mm",
      "No overlap was tested",
    ])
      expect(shown, words).toContain(words);
    const nowhere = await studio.send("visitor", `/recipes/${slug}/handout?region=Atlantis`);
    expect(nowhere.status).toBe(422);
    expect(await nowhere.text()).toContain('href="#field-region"');
  });

  it.each([
    ["kg", "2.5", 3],
    ["g", "1234.5", 1],
    ["lb", "10", 3],
  ] as const)("weigh a tub in %s so that the column adds up", async (weight, tub, places) => {
    const path = `/recipes/${slug}/handout?weight=${weight}&tub=${tub}`;
    const json = await read("visitor", path);
    const [recipe] = json.recipes;
    if (!recipe) throw new Error("no recipe");
    const { lines } = recipe;
    const sum = (of: (line: (typeof lines)[number]) => string, part?: string) =>
      Decimal.sum(
        0,
        ...lines.filter((line) => !part || line.part === part).map((line) => of(line)),
      ).toFixed();
    expect(sum(({ tub: weighed }) => weighed, "base")).toBe(tub);
    expect(sum(({ tub: weighed }) => weighed)).toBe(recipe.tub.total);
    expect(sum(({ testGrams }) => testGrams)).toBe(recipe.test.totalGrams);
    // In grams to the last digit, and back: 1 lb is 453.59237 g.
    expect(sum(({ tubGrams }) => tubGrams)).toBe(recipe.tub.totalGrams);
    const gramsIn = { g: "1", kg: "1000", lb: "453.59237" }[weight];
    const back = new Decimal(recipe.tub.totalGrams).div(gramsIn).toFixed();
    expect(back).toBe(recipe.tub.total);
    // As printed: the rows of the table between its heading and “Base”.
    const rows = (await page("visitor", path)).match(/<tr[^>]*><th scope="row">.*?<\/tr>/g) ?? [];
    const cells = rows.map((row) => [...row.matchAll(/<td class="number">([^<]*)/g)].at(-1)?.[1]);
    const at = rows.findIndex((row) => row.includes(">Altogether<"));
    expect(cells[at]).toBe(new Decimal(recipe.tub.total).toFixed(places));
  });

  it.each(["0", "1000.0005", "-3", "x", "5000"])("refuse a tub of %s kg", async (tub) => {
    const answer = await studio.send("visitor", `/recipes/${slug}/handout?weight=kg&tub=${tub}`);
    expect(answer.status).toBe(422);
    const shown = await answer.text();
    expect(shown).toContain('href="#field-tub"');
    expect(shown).toContain(`value="${tub}"`);
  });

  it("name temperatures in the unit that is asked for", async () => {
    // The end point of the large self-supporting cone 6 at 60 °C/h as held in src/chem/cone-tables.ts.
    const c = await read("visitor", `/recipes/${slug}/handout`);
    const f = await read("visitor", `/recipes/${slug}/handout?temperature=F`);
    expect(c.recipes[0]?.cones.low.temperature).toMatchObject({ unit: "C", value: 1222, rate: 60 });
    expect(f.recipes[0]?.cones.low.temperature).toMatchObject({
      unit: "F",
      value: 2232,
      rate: 108,
    });
    const shown = await page("visitor", `/recipes/${slug}/handout?temperature=F`);
    expect(shown).toContain("about 2232 °F when heated at 108 °F an hour");
    expect(shown).toContain("Cone 6 ends near 2232 °F");
  });

  it("carry no formula into a spreadsheet", async () => {
    for (const name of ["=Sum", "+Plus", "-Minus", "@At"])
      await studio.send("manager", "/materials/kaolin/names", {
        json: { name, region: `In ${name}` },
      });
    for (const name of ["=Sum", "+Plus", "-Minus", "@At"]) {
      const region = encodeURIComponent(`In ${name}`);
      const answer = await studio.send(
        "visitor",
        `/recipes/${slug}/handout?format=csv&region=${region}`,
      );
      expect(answer.headers.get("content-type")).toContain("text/csv");
      const csv = await answer.text();
      expect(csv).toContain(`'${name} (here Kaolin)`);
      for (const cell of csv.split(/\r\n/).flatMap((row) => row.split(",")))
        expect(cell).not.toMatch(/^"?[=+@-]/);
    }
  });

  it("stay with the revision that was handed out, and say what a newer one changes", async () => {
    const own = await publish(studio);
    const { path } = await hand("author", `/recipes/${own}`);
    await revise(own, "words", { about: "Dip for three seconds." }, "25");
    const words = await read("visitor", path);
    expect([words.recipes[0]?.revision, words.recipes[0]?.about]).toEqual([
      1,
      "Dip for two seconds.",
    ]);
    expect(words.recipes[0]?.newer).toContain("only words changed");
    await revise(own, "cones", { cones: { low: "5", high: "6" } }, "25");
    expect((await read("visitor", path)).recipes[0]?.newer).toContain("cones, the atmosphere");
    await revise(own, "glaze");
    expect((await read("visitor", path)).recipes[0]?.newer).toContain("revision 4");
    expect((await read("visitor", path)).recipes[0]?.newer).toContain("It changes the glaze");
    const quartz = (json: HandoutJson) =>
      json.recipes[0]?.lines.find(({ material }) => material === "quartz")?.amount;
    expect(quartz(await read("visitor", path))).toBe("25");
    const newest = await read("visitor", `/recipes/${own}/handout`);
    expect([newest.recipes[0]?.newer, quartz(newest)]).toEqual([null, "26"]);
    const asked = await read("visitor", `/recipes/${own}/handout?revision=1`);
    expect(asked.recipes[0]?.revision).toBe(1);
    expect((await studio.send("visitor", `/recipes/${own}/handout?revision=9`)).status).toBe(404);
  });

  it("tell no more of a private recipe's newer revision than that there is one", async () => {
    const own = await publish(studio, { shownTo: "private" });
    const { path } = await hand("author", `/recipes/${own}`);
    await revise(own, "secret");
    const [recipe] = (await read("visitor", path)).recipes;
    expect(recipe?.newer).toBe(
      "A newer revision exists. Ask Rukmini Vale whether it changes the glaze.",
    );
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("are made by a recipe's owner and managers: %s %i", async (who, status) => {
    const { answer, link, id } = await hand(who, `/recipes/${await publish(studio)}`);
    expect(answer.status).toBe(status);
    if (status !== 201) return;
    expect(answer.headers.get("cache-control")).toBe("no-store");
    expect(link).toMatch(/^http:\/\/localhost\/handouts\/[\w-]{32}$/);
    const [event] = await listEvents(studio.db, { subjectId: id, limit: 2 });
    expect(event?.kind).toBe("handout made");
  });

  it("keep their token nowhere, and take no key", async () => {
    const { path } = await hand("author", `/recipes/${slug}`);
    const token = path.replace("/handouts/", "");
    for (const table of ["handouts", "events", "answers"]) {
      const rows = await studio.db.execute(sql.raw(`select t::text as row from ${table} t`));
      expect(JSON.stringify(rows)).not.toContain(token);
    }
    const key = { headers: { "idempotency-key": "k" }, json: {} };
    expect((await studio.send("author", `/recipes/${slug}/handouts`, key)).status).toBe(422);
  });

  it.each<[Who, number, number]>([
    ["visitor", 401, 200],
    ["author", 204, 404],
    ["other member", 403, 200],
    ["reviewer", 403, 200],
    ["manager", 204, 404],
  ])("are ended by a recipe's owner and managers: %s %i", async (who, status, after) => {
    const { id, path } = await hand("author", `/recipes/${await publish(studio)}`);
    const ended = await studio.send(who, `/handouts/${id}`, { method: "DELETE", json: {} });
    expect(ended.status).toBe(status);
    const answer = await studio.send("visitor", path);
    expect(answer.status).toBe(after);
    if (after === 404) expect(await answer.text()).toContain("This link hands nothing out");
  });

  it("show nothing by a wrong token", async () => {
    for (const token of ["x", "A".repeat(32)]) {
      expect((await studio.send("manager", `/handouts/${token}`)).status).toBe(404);
      const posted = await studio.send("manager", `/handouts/${token}`, { json: { own: [] } });
      expect(posted.status).toBe(404);
    }
    for (const id of ["7", "00000000-0000-7000-8000-000000000000"]) {
      const ended = await studio.send("manager", `/handouts/${id}`, { method: "DELETE", json: {} });
      expect(ended.status).toBe(404);
    }
  });

  it("stand alone for whoever holds the link, also where visitors are shown nothing", async () => {
    const own = await publish(studio, { shownTo: "private" });
    await fireTile(studio, own);
    const { path } = await hand("author", `/recipes/${own}`);
    await studio.db.update(studios).set({ showsPublic: false });
    const answer = await studio.send("visitor", path);
    await studio.db.update(studios).set({ showsPublic: true });
    expect(answer.status).toBe(200);
    expect(answer.headers.get("x-robots-tag")).toContain("noindex");
    expect(answer.headers.get("cache-control")).toBe("no-store");
    const shown = await answer.text();
    const links = [...shown.matchAll(/<a [^>]*href="([^"]+)"/g)].map(([, href]) => href ?? "");
    for (const href of links.filter((each) => !each.startsWith("#")))
      expect(href).toMatch(/^\/(cautions|about|guide|reading)/);
    for (const secret of ["@saltmarsh.example", studio.ids.author, "/recipes/", "Sign in"])
      expect(shown).not.toContain(secret);
    expect(JSON.stringify(await read("visitor", path))).not.toContain(studio.ids.author);
  });

  it("show pictures of a private recipe by the link alone, and only those of its tiles", async () => {
    const hang = async (at: string, side: number, lines?: [string, string][]) => {
      const own = await publish(studio, { shownTo: "private", ...(lines && { lines }) });
      const tile = await fireTile(studio, own);
      const sent = await studio.send("author", `/tiles/${tile}/photos`, {
        form: pictureForm(await halves(side, 30).png().toBuffer()),
        accept: "application/json",
      });
      return { own, at, sha256: ((await sent.json()) as { sha256: string }).sha256 };
    };
    const mine = await hang("mine", 41, [
      ["quartz", "61"],
      ["whiting", "39"],
    ]);
    const other = await hang("other", 42, [
      ["quartz", "62"],
      ["whiting", "38"],
    ]);
    const { path, id } = await hand("author", `/recipes/${mine.own}`);
    const [tile] = (await read("visitor", path)).recipes[0]?.tiles ?? [];
    const at = tile?.photos[0]?.at ?? "";
    expect(at).toBe(`${path}/photos/${mine.sha256}/full`);
    const picture = await studio.send("visitor", at);
    expect([picture.status, picture.headers.get("content-type")]).toEqual([200, "image/jpeg"]);
    expect((await studio.send("visitor", `/photos/${mine.sha256}/full`)).status).toBe(404);
    const others = await studio.send("visitor", `${path}/photos/${other.sha256}/full`);
    expect(others.status).toBe(404);
    expect(await page("visitor", path)).toContain(`${path}/photos/${mine.sha256}/600`);
    await studio.send("author", `/handouts/${id}`, { method: "DELETE", json: {} });
    expect((await studio.send("visitor", at)).status).toBe(404);
  });

  it("tell of no tile on another's private recipe of the same glaze", async () => {
    const lines: [string, string][] = [
      ["quartz", "57"],
      ["whiting", "43"],
    ];
    const own = await publish(studio, { lines });
    const hidden = await publish(studio, { lines, shownTo: "private" });
    await fireTile(studio, own, { remark: "Told to all." });
    await fireTile(studio, hidden, { remark: "Told to nobody." });
    const { path } = await hand("author", `/recipes/${own}`);
    const shown = await page("visitor", path);
    expect(shown).toContain("Told to all.");
    expect(shown).not.toContain("Told to nobody.");
  });

  it("say how a recipe stands now, never how it stood", async () => {
    const own = await publish(studio, {
      different: { use: "functional" },
      lines: [
        ["quartz", "63"],
        ["whiting", "37"],
      ],
    });
    await bringEvidence(studio, own);
    const { path } = await hand("author", `/recipes/${own}`);
    await stand(studio, own, { is: "approved", for: "functional" });
    const [before] = (await read("visitor", path)).recipes;
    expect([before?.standing.is, before?.mayUse.food]).toEqual(["approved", true]);
    expect(before?.mayUse.says[0]).toContain("until your own tiles and tests say the same");
    expect(before?.untested).not.toContain("acid");
    await stand(studio, own, { is: "needs another look" });
    const [doubted] = (await read("visitor", path)).recipes;
    expect([doubted?.standing.is, doubted?.mayUse.food]).toEqual(["needs another look", false]);
    await studio.send("author", `/recipes/${own}/withdrawal`, {
      method: "PUT",
      json: { why: "It spat glass.", forSafety: true },
    });
    const [after] = (await read("visitor", path)).recipes;
    expect([after?.standing.is, after?.mayUse.food]).toEqual(["withdrawn", false]);
    const shown = await page("visitor", path);
    expect(shown).toContain("Do not use it: this recipe was withdrawn.");
    expect(shown).toContain("It spat glass.");
    expect(shown).not.toContain("standing-approved");
  });

  describe("of a family", () => {
    let at: string;
    let hidden: string;
    beforeAll(async () => {
      hidden = await publish(studio, { who: "other member", shownTo: "studio" });
      const secret = await publish(studio, { who: "other member", shownTo: "private" });
      at = await family("Gannets", [slug, await publish(studio, { shownTo: "private" }), hidden]);
      const whole = { recipes: [slug, hidden, secret] };
      const all = await family("All gannets", whole.recipes, "manager");
      expect(all).not.toBe("/families/undefined");
    });

    it("hold what their maker may hand out, and say what is left out", async () => {
      const made = await hand("author", at, { region: "united states" });
      expect(made.answer.status).toBe(201);
      expect(made.recipes.map((each) => each.slug)).not.toContain(hidden);
      expect(made.recipes).toHaveLength(2);
      expect(made.leftOut).toHaveLength(1);
      const json = await read("visitor", made.path);
      expect(json.recipes).toHaveLength(2);
      expect(json.region).toBe("united states");
      expect(json.leftOut).toBe("One recipe of this family is not in this handout.");
      expect(JSON.stringify(json)).not.toContain(hidden);
      const whole = await hand("manager", "/families/all-gannets");
      expect((await read("visitor", whole.path)).recipes).toHaveLength(3);
      const none = await hand("other member", "/families/gannets");
      expect(none.answer.status).toBe(201);
      expect(none.recipes.map((each) => each.slug)).toEqual([slug, hidden]);
    });

    it("have contents, a shelf, and what to buy for a test and a tub of each", async () => {
      const json = await read("author", `${at}/handout?tub=2`);
      const quartz = json.powders.find(({ material }) => material === "quartz");
      // 25 % of three bases: 75 g for tests of 100 g, 1.5 kg for tubs of 2 kg.
      expect(quartz?.buy).toEqual({ testGrams: "75", tub: "1.5", unit: "kg" });
      const onShelf = json.shelf?.find(({ material }) => material === "quartz");
      expect(onShelf?.percents).toEqual(["25", "25", "25"]);
      const shown = await page("author", `${at}/handout`);
      for (const words of ["In this handout", 'href="#piece-3"', 'id="piece-3"', "Three glazes"])
        expect(shown, words).toContain(words);
      const visitor = await page("visitor", `${at}/handout`);
      expect(visitor).toContain("Two recipes are not shown to you.");
    });

    it("are listed for who may end them, on the pages of the family and of each recipe", async () => {
      const { id } = await hand("author", at);
      expect(await page("author", at)).toContain(`/handouts/${id}/end`);
      expect(await page("author", `/recipes/${slug}`)).toContain(`/handouts/${id}/end`);
      expect(await page("reviewer", at)).not.toContain(`/handouts/${id}/end`);
      const form = { why: "" };
      const ended = await studio.send("author", `/handouts/${id}/end`, { form });
      expect([ended.status, ended.headers.get("location")]).toEqual([303, `${at}#handouts`]);
      expect(await page("author", at)).not.toContain(`/handouts/${id}/end`);
    });
  });

  it("are made by a form that shows the link this once", async () => {
    const shown = await page("author", `/recipes/${slug}/handout`);
    expect(shown).toContain(`action="/recipes/${slug}/handouts"`);
    expect(await page("other member", `/recipes/${slug}/handout`)).not.toContain('/handouts"');
    const form = { revision: "1", region: "" };
    const made = await studio.send("author", `/recipes/${slug}/handouts`, { form });
    expect(made.status).toBe(201);
    const [path = ""] = /\/handouts\/[\w-]{32}/.exec(await made.text()) ?? [];
    expect((await studio.send("visitor", path)).status).toBe(200);
    const events = await page("manager", "/events");
    expect(events).toContain("made a handout of");
  });
});
