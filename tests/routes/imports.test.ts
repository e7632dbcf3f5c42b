import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { events, recipes, revisions } from "../../src/db/schema/index.ts";
import { importing, inFrame, planOf, recipeInFile, sendFile, takeIn } from "../imports.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("an import", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await studio.send("manager", "/materials/quartz/names", {
      json: { name: "Silica flour", region: "North", caution: "Not the fumed silica." },
    });
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const melt = async (slug: string) => {
    const [row] = await studio.db
      .select({ melt: revisions.meltDigest })
      .from(revisions)
      .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
      .where(eq(recipes.slug, slug));
    return row?.melt;
  };

  it("says line by line what it would do, and writes nothing", async () => {
    const before = await studio.db.$count(events);
    const ready = recipeInFile();
    const plan = await planOf(studio, inFrame({ recipes: [ready] }));
    expect(plan).toMatchObject({
      dryRun: true,
      // Nobody has said yet that these are the powders.
      ready: false,
      brings: { recipes: 1, materials: 0, analyses: 0, notes: 0 },
      matches: { "Potash feldspar": "potash-feldspar", Whiting: "whiting" },
    });
    expect(plan.recipes).toMatchObject([{ place: "recipes.0", is: "draft", as: ready.name }]);
    expect(plan.names[0]?.possible[0]?.analysis?.source).toContain("formula");
    expect(await studio.db.$count(events)).toBe(before);
  });

  it("shows the look-alike caution with a name of elsewhere, and chooses it beforehand", async () => {
    const lines = [{ part: "base", material: "Silica flour", amount: "30" }];
    const plan = await planOf(studio, [recipeInFile({}, lines)]);
    expect(plan.names).toMatchObject([
      { name: "Silica flour", is: "quartz", possible: [{ how: "elsewhere" }] },
    ]);
    expect(plan.names[0]?.possible[0]?.because).toContain("North");
    expect(plan.names[0]?.possible[0]?.cautions).toEqual([
      "“Silica flour” (North): Not the fumed silica.",
    ]);
  });

  it("never chooses a likeness, and takes nothing in before somebody has", async () => {
    const recipe = recipeInFile({}, [{ part: "base", material: "Qartz", amount: "30" }]);
    const plan = await planOf(studio, [recipe]);
    expect(plan.names).toMatchObject([
      { name: "Qartz", is: null, possible: [{ how: "likeness", material: { slug: "quartz" } }] },
    ]);
    expect(plan.recipes[0]).toMatchObject({ is: "waits", says: "It waits for Qartz." });
    const before = await studio.db.$count(recipes);
    const refused = await studio.send("manager", "/import", importing([recipe]));
    expect(refused.status).toBe(422);
    expect(await refused.json()).toMatchObject({ errors: [{ path: "matches.Qartz" }] });
    expect(await studio.db.$count(recipes)).toBe(before);
    const taken = await takeIn(studio, [recipe], { matches: { Qartz: "quartz" } });
    expect(taken.recipes).toMatchObject([{ name: recipe.name }]);
  });

  it("asks to be told of exact names too", async () => {
    const refused = await studio.send("manager", "/import", importing([recipeInFile()]));
    expect(refused.status).toBe(422);
    const { errors } = (await refused.json()) as { errors: { path: string }[] };
    expect(errors.map(({ path }) => path)).toContain("matches.Potash feldspar");
  });

  it("brings drafts of whoever takes it in, shown to the studio, and says where from", async () => {
    const given = recipeInFile({ maker: "A potter elsewhere", source: "Their notebook, p. 4" });
    const { recipes: brought } = await takeIn(studio, inFrame({ recipes: [given] }));
    const slug = brought[0]?.slug ?? "";
    const recipe = await studio.json("manager", `/recipes/${slug}`);
    expect(recipe).toMatchObject({
      owner: { name: "Ines Okafor" },
      shownTo: "studio",
      standing: { is: "draft" },
    });
    expect(JSON.stringify(recipe)).toContain("from shelf.json");
    expect(JSON.stringify(recipe)).toContain(
      "Made elsewhere by A potter elsewhere. Source: Their notebook, p. 4",
    );
  });

  it("is the same melt as published by hand, whatever the order of the rows", async () => {
    const slug = await publish(studio, { different: { about: "By hand." } });
    const csv = [
      "recipe;material;amount;part;cone;atmosphere",
      "Low water;Red iron oxide;2,0;addition;6;oxidation",
      "Low water;Kaolin;15;base;;",
      "Low water;Quartz;25;;;",
      "Low water;Whiting;20;;;",
      "Low water;Potash feldspar;40;;;",
    ].join("\r\n");
    const plan = await planOf(studio, `\ufeff${csv}`);
    expect(plan.recipes).toMatchObject([{ is: "here already", place: "row 2" }]);
    await studio.send("author", `/recipes/${slug}/withdrawal`, {
      method: "PUT",
      json: { why: "Another will come." },
    });
    const others = await planOf(studio, csv);
    // Nothing that was taken back keeps a file out.
    if (others.recipes[0]?.is === "draft") {
      const { recipes: brought } = await takeIn(studio, csv);
      expect(await melt(brought[0]?.slug ?? "")).toBe(await melt(slug));
    }
    expect(others.recipes[0]?.is).toBe("draft");
  });

  it("never overwrites: a taken name gets where it is from, then a number", async () => {
    const name = "Saltmarsh Clear";
    const json = { name, revision: revision({}, [["quartz", "31"]]) };
    await studio.send("author", "/recipes", { json });
    const same = (amount: string) =>
      recipeInFile({ name, source: "Loft book" }, [{ part: "base", material: "Quartz", amount }]);
    const plan = await planOf(studio, [same("32"), same("33"), same("32")]);
    expect(plan.recipes).toMatchObject([
      { is: "draft", as: "Saltmarsh Clear (from Loft book)" },
      { is: "draft", as: "Saltmarsh Clear (from Loft book) 2" },
      { is: "twice" },
    ]);
  });

  it("has words for what is refused, with its place, and takes the rest only when asked", async () => {
    const good = recipeInFile();
    const bad = recipeInFile({}, [
      { part: "base", material: "Quartz", amount: "-3" },
      { part: "base", material: "Whiting", amount: "1e400" },
    ]);
    const unknown = { ...recipeInFile(), kiln: "the big one" };
    const file = [good, bad, unknown];
    const plan = await planOf(studio, file);
    expect(plan.refused.flatMap(({ errors }) => errors.map(({ path }) => path))).toEqual([
      "1.revision.lines.1.amount",
      "2.kiln",
    ]);
    const { matches } = plan;
    const before = await studio.db.$count(recipes);
    const refused = await studio.send("manager", "/import", importing(file, { matches }));
    expect(refused.status).toBe(422);
    expect(await studio.db.$count(recipes)).toBe(before);
    const taken = await takeIn(studio, file, { leaveOutRefused: true });
    expect(taken.recipes).toMatchObject([{ name: good.name }]);
  });

  it("asks before the same file is taken in a second time", async () => {
    const file = [recipeInFile()];
    const { id, recipes: first } = await takeIn(studio, file);
    const plan = await planOf(studio, file);
    expect(plan.takenInBefore).toMatchObject([{ id, takenBack: false }]);
    expect(plan.recipes).toMatchObject([{ is: "here already", here: { slug: first[0]?.slug } }]);
    const { matches } = plan;
    const again = await studio.send("manager", "/import", importing(file, { matches }));
    expect(await again.json()).toMatchObject({ status: 422, errors: [{ path: "again" }] });
    const meant = await studio.send(
      "manager",
      "/import",
      importing(file, { matches, again: true }),
    );
    // All of it is here already.
    expect(meant.status).toBe(422);
    expect(JSON.stringify(await meant.json())).toContain("Nothing in this file is new here");
  });

  it("brings a new material with its names; its first analysis is in use, further ones wait", async () => {
    const powder = {
      name: "Loft ash",
      region: "South",
      kind: "ash",
      names: [{ name: "Hearth ash", region: "East" }],
      analysis: { CaO: { percent: 40 }, SiO2: { percent: 30 }, lossOnIgnition: { percent: 28 } },
      source: "Laboratory sheet 4",
      analyses: [{ source: "Sheet 5", oxides: { CaO: { percent: 41 }, SiO2: { percent: 30 } } }],
    };
    const line = { part: "base", material: "Loft ash", amount: "50" };
    const recipe = recipeInFile({}, [line, { part: "base", material: "Kaolin", amount: "50" }]);
    const file = inFrame({ materials: [powder], recipes: [recipe] });
    const plan = await planOf(studio, file, { matches: { "Loft ash": "new" } });
    expect(plan.analyses).toMatchObject([
      { is: "in use", place: "materials.0" },
      { is: "waits for a manager", place: "materials.0.analyses.0" },
    ]);
    const taken = await takeIn(studio, file, { matches: { "Loft ash": "new" } });
    expect(taken.materials).toMatchObject([{ slug: "loft-ash", offered: true }]);
    expect(taken.analyses.map(({ inUse }) => inUse)).toEqual([true, false]);
    const material = await studio.json("manager", "/materials/loft-ash");
    expect(JSON.stringify(material)).toContain("Hearth ash");
  });

  it("brings an analysis of a known material, which waits", async () => {
    const csv =
      "material,source,SiO₂,Al₂O₃,± Al₂O₃,lossOnIgnition\nQuartz,Sheet 9,98.1,0.9,0.1,0.4";
    const taken = await takeIn(studio, csv);
    expect(taken.analyses).toMatchObject([{ slug: "quartz", inUse: false }]);
    expect((await planOf(studio, csv)).analyses).toMatchObject([{ is: "here already" }]);
    const plain = csv.replaceAll("₂", "2").replaceAll("₃", "3");
    expect((await planOf(studio, plain)).analyses).toMatchObject([{ is: "here already" }]);
  });

  it("reads formulas in subscripts and in plain figures as one", async () => {
    const csv = "material,source,formula\nSpar A,Book,K₂O·Al₂O₃·6SiO₂\nSpar B,Book,K2O*Al2O3*6SiO2";
    const matches = { "Spar A": "new", "Spar B": "new" };
    await takeIn(studio, csv, { matches });
    const oxides = async (slug: string) => {
      const { analyses } = await studio.json<{ analyses: { oxides: unknown }[] }>(
        "manager",
        `/materials/${slug}`,
      );
      return analyses[0]?.oxides;
    };
    expect(await oxides("spar-a")).toEqual(await oxides("spar-b"));
    expect(JSON.stringify(await oxides("spar-a"))).toContain("SiO2");
  });

  it("leaves out a powder and with it the recipes that need it", async () => {
    const recipe = recipeInFile({}, [{ part: "base", material: "Moon dust", amount: "1" }]);
    const plan = await planOf(studio, [recipe, recipeInFile()], {
      matches: { "Moon dust": "leave out" },
    });
    expect(plan.recipes).toMatchObject([{ is: "left out" }, { is: "draft" }]);
  });

  it("comes as a form with its file kept in the page", async () => {
    const csv = "recipe,material,amount,cone\nPage glaze,Quartz,71,6";
    const first = await studio.send("manager", "/import", {
      form: { kept: Buffer.from(csv).toString("base64"), fileName: "page.csv" },
    });
    expect(first.status).toBe(200);
    const page = await first.text();
    expect(page).toContain(`value="${Buffer.from(csv).toString("base64")}"`);
    expect(page).toContain("Chosen beforehand");
    const [, digest] = /name="digest" value="([0-9a-f]{64})"/.exec(page) ?? [];
    const form = {
      kept: Buffer.from(csv).toString("base64"),
      fileName: "page.csv",
      digest: digest ?? "",
      dryRun: "false",
      "name.0": "Quartz",
      "is.0": "quartz",
    };
    const done = await studio.send("manager", "/import", { form });
    expect(done.status).toBe(303);
    expect(done.headers.get("location")).toMatch(/^\/imports\//);
  });

  it("shows another file than the one looked at, and does not take it in", async () => {
    const csv = "recipe,material,amount,cone\nOther glaze,Quartz,72,6";
    const before = await studio.db.$count(recipes);
    const fields = { dryRun: "false", digest: "0".repeat(64), matches: '{"Quartz":"quartz"}' };
    const answer = await sendFile(studio, csv, fields);
    expect(await answer.json()).toMatchObject({ status: 422, errors: [{ path: "file" }] });
    expect(await studio.db.$count(recipes)).toBe(before);
  });

  it("is put on record by one event of its own, last", async () => {
    const { id } = await takeIn(studio, [recipeInFile()]);
    const last = await studio.db.select().from(events).where(eq(events.subjectId, id));
    expect(last.map(({ kind }) => kind)).toEqual(["import taken in"]);
    expect(last[0]?.seq).toBe(await studio.db.$count(events));
    const { items } = await studio.json<{ items: { id: string }[] }>("manager", "/imports");
    expect(items[0]?.id).toBe(id);
  });
});
