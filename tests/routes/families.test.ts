import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { familyJson } from "../../src/routes/family-json.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Family = ReturnType<typeof familyJson>;
type Answered = Family & { errors: { path: string; says: string }[] };

describe("families", () => {
  let studio: TestStudio;
  let recipes: string[];
  let hidden: string;
  /** What the first two recipes are called. */
  let names: string[];
  let named = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    const second = {
      lines: [
        ["potash-feldspar", "30"],
        ["quartz", "20"],
      ] as [string, string][],
    };
    recipes = [await publish(studio), await publish(studio, second)];
    hidden = await publish(studio, { shownTo: "private" });
    names = recipes.map((slug) => slug.replace("slack-water", "Slack Water").replaceAll("-", " "));
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const newName = () => {
    named += 1;
    return `Terns ${named}`;
  };
  const send = async (who: Who, path: string, json: object, method = "POST") => {
    const answer = await studio.send(who, path, { json, method });
    return { answer, body: (await answer.json()) as Answered };
  };
  const add = (who: Who, json: object = { name: newName(), recipes }) =>
    send(who, "/families", json);

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who makes one with %i", async (who, status) => {
    const { answer, body } = await add(who);
    expect(answer.status).toBe(status);
    if (status !== 201) return;
    expect(answer.headers.get("location")).toBe(`/families/${body.slug}`);
    expect(await studio.json("visitor", `/families/${body.slug}`)).toEqual(body);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who changes one of the author's with %i", async (who, status) => {
    const { body } = await add("author");
    const path = `/families/${body.slug}`;
    const { answer } = await send(who, path, { recipes: [recipes[1]], intro: "Less." }, "PUT");
    expect(answer.status).toBe(status);
    const after = await studio.json<Family>("visitor", path);
    expect(after.recipes).toHaveLength(status === 200 ? 1 : 2);
    expect([after.name, after.intro]).toEqual([body.name, status === 200 ? "Less." : ""]);
    expect((await studio.send(who, `${path}/edit`)).status).toBe(status);
    const page = await (await studio.send(who, path)).text();
    expect(page.includes(`${path}/edit`)).toBe(status === 200);
  });

  it("says which material is in which recipe, and what to buy for all of them", async () => {
    const { body } = await add("author");
    expect(body.shelf.map(({ material }) => material)).toEqual([
      "potash-feldspar",
      "quartz",
      "kaolin",
      "whiting",
    ]);
    expect(body.coverage.find(({ material }) => material === "potash-feldspar")).toEqual({
      material: "potash-feldspar",
      name: "Potash feldspar",
      part: "base",
      percents: [
        { recipe: recipes[0], percent: "40" },
        { recipe: recipes[1], percent: "60" },
      ],
    });
    expect(body.coverage.at(-1)).toMatchObject({ material: "red-iron-oxide", part: "addition" });
    const quartz = (family: Family) =>
      family.shopping.lines.find(({ material }) => material === "quartz");
    expect(quartz(body)).toMatchObject({ testGrams: "65.0", bucketGrams: "3250" });
    const more = await studio.json<Family>("visitor", `/families/${body.slug}?kg=2.5`);
    expect(quartz(more)).toMatchObject({ testGrams: "65.0", bucketGrams: "1625" });

    const page = await (await studio.send("visitor", `/families/${body.slug}?kg=2.5`)).text();
    expect(page).toContain("Two glazes from four base materials.");
    expect(page).toContain("2.5 kg of each");
    expect(page).toContain("Decorative only");
    const wrong = await studio.send("visitor", `/families/${body.slug}?kg=0`);
    expect(wrong.status).toBe(422);
    expect(await wrong.text()).toContain('href="#field-kg"');
  });

  it("says which of its materials are no longer sold", async () => {
    const { body } = await add("author");
    const json = { since: "2026-01-01", why: "The pit closed." };
    await studio.send("manager", "/materials/kaolin/discontinuation", { method: "PUT", json });
    const after = await studio.json<Family>("visitor", `/families/${body.slug}`);
    expect([body.noLongerSold, after.noLongerSold]).toEqual([
      [],
      [{ material: "kaolin", name: "Kaolin" }],
    ]);
    expect(await (await studio.send("visitor", `/families/${body.slug}`)).text()).toContain(
      "No longer sold",
    );
  });

  it("leaves out a recipe that the reader may not know of, and counts it in words", async () => {
    const { body } = await add("author", { name: newName(), recipes: [...recipes, hidden] });
    const seen = await studio.json<Family>("visitor", `/families/${body.slug}`);
    expect([seen.recipes.length, seen.leftOut, body.leftOut]).toEqual([2, 1, 0]);
    expect(JSON.stringify(seen)).not.toContain(hidden);
    const page = await (await studio.send("visitor", `/families/${body.slug}`)).text();
    expect(page).toContain("One recipe is not shown to you.");
    const list = await (await studio.send("visitor", "/families")).text();
    expect(list).toContain("One recipe is not shown to you.");
    expect(list).not.toContain(hidden);
  });

  it.each<[string, () => object, string]>([
    ["no name", () => ({ recipes }), "name"],
    ["no recipe", () => ({ name: "Grit", recipes: [] }), "recipes"],
    ["none at all", () => ({ name: "Grit" }), "recipes"],
    ["a recipe that is not there", () => ({ name: "Grit", recipes: ["nothing"] }), "recipes.0"],
    ["one twice", () => ({ name: "Grit", recipes: [recipes[0], names[0]] }), "recipes.1"],
    ["a field that is none", () => ({ name: "Grit", recipes, mood: "grey" }), "mood"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const { answer, body } = await add("author", json());
    expect([answer.status, body.errors.map((fault) => fault.path)]).toEqual([422, [path]]);
  });

  it("refuses a recipe that whoever names it may not know of as one that is not there", async () => {
    const { body } = await add("other member", { name: newName(), recipes: [hidden] });
    expect(body.errors[0]?.says).toContain("that you may see");
  });

  it("has one family of a name, when made and when renamed", async () => {
    const { body } = await add("author");
    const again = await add("manager", { name: body.name.toUpperCase(), recipes });
    expect([again.answer.status, again.body.errors[0]?.path]).toEqual([422, "name"]);
    const other = await add("author");
    const renamed = await send(
      "author",
      `/families/${other.body.slug}`,
      { name: body.name, recipes, intro: "" },
      "PUT",
    );
    expect([renamed.answer.status, renamed.body.errors[0]?.path]).toEqual([422, "name"]);
  });

  it("takes a form, and shows it again with what was typed where something is wrong", async () => {
    const form = {
      name: "Gulls <one>",
      recipes: `${names[0]}\nnothing\n`,
      intro: "Soft.",
      idempotencyKey: "gulls",
    };
    const refused = await studio.send("author", "/families", { form });
    expect(refused.status).toBe(422);
    const shown = await refused.text();
    expect(shown).toContain('href="#field-recipes"');
    expect(shown).toContain('value="Gulls &lt;one&gt;"');
    expect(shown).toContain(`${names[0]}\nnothing`);
    const whole = { ...form, recipes: `${names[0]}\r\n${recipes[1]}` };
    const made = await studio.send("author", "/families", { form: whole });
    expect([made.status, made.headers.get("location")]).toEqual([303, "/families/gulls-one"]);
    const edit = await (await studio.send("author", "/families/gulls-one/edit")).text();
    expect(edit).toContain(names.join("\n"));
    const change = { name: "Gulls", recipes: names[1] ?? "", intro: "" };
    const kept = await studio.send("author", "/families/gulls-one", { form: change });
    expect([kept.status, kept.headers.get("location")]).toEqual([303, "/families/gulls-one"]);
    const after = await studio.json<Family>("visitor", "/families/gulls-one");
    expect([after.name, after.intro, after.recipes.length]).toEqual(["Gulls", "", 1]);
  });

  it("tells the record of it by its name, and knows none by nonsense", async () => {
    const { body } = await add("author");
    const page = await (await studio.send("manager", "/events")).text();
    expect(page).toContain(`wrote up the family <a href="/families/${body.slug}">${body.name}</a>`);
    for (const slug of ["none", "%00", "A", "x".repeat(90)])
      expect((await studio.send("manager", `/families/${slug}`)).status, slug).toBe(404);
  });
});
