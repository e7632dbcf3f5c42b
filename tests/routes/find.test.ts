import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Found = {
  items: { slug: string; name: string }[];
  next: string | null;
  understood?: { typed: string; is: string; materials: { slug: string }[]; words: string[] }[];
  counts?: {
    all: number | string;
    cone: Record<string, number>;
    use: Record<string, number>;
    atmosphere: Record<string, number>;
    standing: Record<string, number>;
  };
};

describe("finding a glaze by words", () => {
  let studio: TestStudio;
  const slugs: Record<string, string> = {};

  const ask = (query: string, who: Who = "visitor") => studio.json<Found>(who, `/recipes?${query}`);
  const names = async (query: string, who: Who = "visitor") =>
    (await ask(query, who)).items.map(({ name }) => name);
  const page = async (query: string, who: Who = "visitor") =>
    (await studio.send(who, `/recipes?${query}`)).text();

  const add = async (
    name: string,
    different: Record<string, unknown> = {},
    more: { who?: Exclude<Who, "visitor">; shownTo?: string; lines?: [string, string][] } = {},
  ) => {
    const {
      who = "author",
      shownTo = "public",
      lines = [
        ["quartz", "60"],
        ["kaolin", "40"],
      ],
    } = more;
    const revision = {
      message: "",
      lines: lines.map(([material, amount]) => ({ part: "base", material, amount })),
      use: "decorative",
      cones: { low: "6", high: "6" },
      atmosphere: "oxidation",
      surface: "gloss",
      about: "",
      ...different,
    };
    const answer = await studio.send(who, "/recipes", { json: { name, shownTo, revision } });
    expect(answer.status).toBe(201);
    slugs[name] = ((await answer.json()) as { slug: string }).slug;
  };

  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    const elsewhere = { name: "Chalk flour", region: "Lowlands", caution: "" };
    await studio.send("manager", "/materials/whiting/names", { json: elsewhere });
    await add("Heron Wing", { surface: "glossy", about: "Breaks brown over texture." });
    await add("Mackerel Sky", { surface: "satin", cones: { low: "04", high: "1" } });
    await add(
      "Tidewrack",
      { atmosphere: "reduction", surface: "crystalline" },
      {
        lines: [
          ["whiting", "30"],
          ["quartz", "70"],
        ],
      },
    );
    await add("Of the Other", {}, { who: "reviewer" });
    await add("Curlew Hollow", { about: "Secretly zebrine." }, { shownTo: "private" });
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  it("knows a word in its other forms", async () => {
    expect(await names("q=herons")).toEqual(["Heron Wing"]);
    expect(await names("q=textured+breaking")).toEqual(["Heron Wing"]);
    expect(await names("q=glossy")).toContain("Heron Wing");
  });

  it("knows a word by its beginning", async () => {
    expect(await names("q=mack")).toEqual(["Mackerel Sky"]);
    expect((await ask("q=mack")).understood).toMatchObject([{ typed: "mack", is: "begins" }]);
  });

  it("asks whether a word was meant that is spelt nearly so", async () => {
    const found = await ask("q=macerel");
    expect(found.items.map(({ name }) => name)).toEqual(["Mackerel Sky"]);
    expect(found.understood).toMatchObject([{ typed: "macerel", is: "like", words: ["mackerel"] }]);
    const html = await page("q=macerel+sky&cone=02");
    expect(html).toContain("Did you mean");
    expect(html).toContain("/recipes?q=mackerel+sky&amp;cone=02");
    expect((await ask("q=zzyzxq")).items).toEqual([]);
    expect(await page("q=zzyzxq")).toContain("Nothing here is called “zzyzxq”");
  });

  it("finds a powder by its name in another region, and by a slip of the pen", async () => {
    expect(await names("q=chalk+flour")).toEqual(["Tidewrack"]);
    expect((await ask("q=chalk+flour")).understood).toMatchObject([
      { typed: "chalk flour", is: "exact", materials: [{ slug: "whiting" }] },
    ]);
    expect(await names("q=whitting")).toEqual(["Tidewrack"]);
    expect(await page("q=whiting")).toContain("also called Chalk flour (Lowlands)");
  });

  it("finds by the maker, and by a name of words that are in every text", async () => {
    expect(await names("q=Pellew")).toEqual(["Of the Other"]);
    expect(await names("maker=tam+pellew")).toEqual(["Of the Other"]);
    expect(await names("q=other")).toContain("Of the Other");
    expect(await names("q=the+heron")).toEqual(["Heron Wing"]);
  });

  it("puts a name before a powder, and that before what is told about it", async () => {
    await add("Whiting Wash");
    await add("Sandbar", { about: "Without any whiting." });
    expect(await names("q=whiting")).toEqual(["Whiting Wash", "Tidewrack", "Sandbar"]);
  });

  it("tells nobody of a recipe that they may not know of, not by a likeness either", async () => {
    for (const word of ["curlew", "curlw", "zebrine", "zebrin", "curl"]) {
      const { items, understood } = await ask(`q=${word}&counts=1`, "other member");
      expect({ items, understood }).toMatchObject({
        items: [],
        understood: [{ typed: word, is: "unknown", words: [] }],
      });
    }
    expect(await names("q=curlw")).toEqual([]);
    expect(await names("q=curlw", "author")).toEqual(["Curlew Hollow"]);
    expect(await names("q=zebrine", "manager")).toEqual(["Curlew Hollow"]);
    const maker = await studio.send("visitor", "/recipes?maker=Jonah+Brackley", {
      accept: "application/json",
    });
    expect(maker.status).toBe(422);
  });

  it("finds by what notes say now, and no more by what was removed", async () => {
    const slug = slugs["Heron Wing"];
    const put = await studio.send("author", `/recipes/${slug}/notes`, {
      json: { text: "Stir it with a whalebone paddle." },
    });
    const { id } = (await put.json()) as { id: string };
    expect(await names("q=whalebones")).toEqual(["Heron Wing"]);
    await studio.send("author", `/notes/${id}/text`, {
      method: "PUT",
      json: { text: "Stir it with a driftwood paddle." },
    });
    expect(await names("q=whalebone")).toEqual([]);
    expect(await names("q=driftwood")).toEqual(["Heron Wing"]);
    const why = { method: "PUT", json: { why: "Asked for." } };
    expect((await studio.send("manager", `/notes/${id}/removal`, why)).status).toBe(200);
    expect(await names("q=driftwood", "manager")).toEqual([]);
  });

  it("keeps notes on a private recipe from who may not know of it", async () => {
    await studio.send("author", `/recipes/${slugs["Curlew Hollow"]}/notes`, {
      json: { text: "Ask the lamplighter." },
    });
    expect(await names("q=lamplighter", "other member")).toEqual([]);
    expect(await names("q=lamplighter", "author")).toEqual(["Curlew Hollow"]);
  });

  it("leaves out what has a powder, by any of its names", async () => {
    expect(await names("without=whiting&q=tidewrack")).toEqual([]);
    expect(await names("without=chalk+flour")).not.toContain("Tidewrack");
    expect(await names("without=whiting&without=quartz")).toEqual([]);
    const answer = await studio.send("visitor", "/recipes?without=unobtainium", {
      accept: "application/json",
    });
    expect([answer.status, await answer.json()]).toMatchObject([
      422,
      { errors: [{ path: "without" }] },
    ]);
  });

  // CaO from 30 g CaCO3 (100.09) is 0.2997 mol, SiO2 from 70 g (60.08) 1.165 mol: 3.89 to 1.
  it("narrows by moles of an oxide for every mole of flux", async () => {
    expect(await names("least.SiO2=3.8&most.SiO2=4")).toEqual(["Tidewrack"]);
    expect(await names("least.SiO2=3.9&most.SiO2=4")).toEqual([]);
    const asked = "/recipes?least.SiO2=5&most.SiO2=4&q=keep+me";
    const json = await studio.send("visitor", asked, { accept: "application/json" });
    expect([json.status, await json.json()]).toMatchObject([
      422,
      { errors: [{ path: "most.SiO2" }] },
    ]);
    const html = await (await studio.send("visitor", asked)).text();
    expect(html).toContain('value="keep me"');
    expect(html).toContain("The most SiO2 is less than the least.");
    const none = await studio.send("visitor", "/recipes?least.XyO=1", {
      accept: "application/json",
    });
    expect(none.status).toBe(422);
  });

  it("shows what is in force with a way to take each off", async () => {
    const html = await page("q=heron&cone=6&without=whiting&surface=gloss");
    expect(html).toContain("1 glaze with");
    expect(html).toContain('href="/recipes?q=heron&amp;cone=6&amp;surface=gloss"');
    expect(html).toContain('href="/recipes?cone=6&amp;surface=gloss&amp;without=whiting"');
    expect(html).toContain("without Whiting");
    expect(await page("q=heron&cone=10")).toContain("No glaze fits all of that");
  });

  it("counts what a plain look through the list counts", async () => {
    const every = (await ask("", "manager")).items as unknown as {
      use: string;
      atmosphere: string;
      standing: string;
    }[];
    const { counts } = await ask("counts=1", "manager");
    expect(counts?.all).toBe(every.length);
    for (const facet of ["use", "atmosphere", "standing"] as const) {
      const plain: Record<string, number> = {};
      for (const item of every) plain[item[facet]] = (plain[item[facet]] ?? 0) + 1;
      expect(counts?.[facet]).toEqual(plain);
    }
    expect(counts?.cone).toMatchObject({ "04": 1, "1": 1, "6": every.length - 1 });
    expect((await ask("counts=1&cone=02")).counts).toMatchObject({
      all: 1,
      cone: { "6": (await names("cone=6")).length },
      use: { decorative: 1 },
    });
    expect((await ask("q=curlew&counts=1")).counts).toBeUndefined();
    expect((await ask("cone=6")).counts).toBeUndefined();
  });

  it("does not mix up places of different lists", async () => {
    const place = Buffer.from(JSON.stringify(["name", 1, "a", studio.ids.author])).toString(
      "base64url",
    );
    const answer = await studio.send("visitor", `/recipes?q=heron&after=${place}`, {
      accept: "application/json",
    });
    expect([answer.status, await answer.json()]).toMatchObject([
      422,
      { errors: [{ path: "after" }] },
    ]);
  });
});

describe("finding a glaze by colour", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());

  it("puts first what came out nearest to it, and leaves out what has no tile", async () => {
    const shade = async (lab: number[], shownTo?: string) => {
      const silica = String(50 + lab.reduce((sum, each) => sum + Math.abs(each), 0) / 10);
      const slug = await publish(studio, {
        ...(shownTo && { shownTo }),
        lines: [
          ["quartz", silica],
          ["whiting", "20"],
        ],
      });
      const tile = await studio.send("author", `/recipes/${slug}/tiles`, {
        json: { revision: 1, cone: "6", clay: "Loft stoneware" },
      });
      const { id } = (await tile.json()) as { id: string };
      await studio.send("author", `/tiles/${id}/colours`, { json: { lab, from: "instrument" } });
      return slug;
    };
    const [far, near, hidden] = [
      await shade([70, 0, 0]),
      await shade([55, 0, 0]),
      await shade([50, 0, 1], "private"),
    ];
    await publish(studio);
    const found = async (query: string, who: Who = "visitor") =>
      (await studio.json<Found>(who, `/recipes?${query}`)).items.map(({ slug }) => slug);
    expect(await found("colour=50,0,0")).toEqual([near, far]);
    expect(await found("colour=50,0,0", "manager")).toEqual([hidden, near, far]);
    expect(await found("colour=white")).toEqual([far, near]);
    expect(await found("colour=white&cone=10")).toEqual([]);
    expect(
      (await studio.json<Found>("visitor", "/recipes?colour=white&counts=1")).counts,
    ).toMatchObject({
      all: 2,
      use: { decorative: 2 },
    });
    const html = await (await studio.send("visitor", "/recipes?colour=mauveish")).text();
    expect(html).toContain("One of white, cream");
  });
});
