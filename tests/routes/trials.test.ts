import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Chemistry } from "../../src/chem/chemistry.ts";
import { publish, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Result = {
  id: string;
  point: number;
  surface: string;
  defects: string[];
  photos: { sha256: string; alt: string }[];
  withdrawn: { why: string; by: string } | null;
};
type Point = {
  n: number;
  mark: string;
  at: number[];
  lines: { material: string; part: string; amount: string; analysis: string | null }[];
  chemistry: Chemistry;
  results: Result[];
  recipes: { slug: string; name: string }[];
};
type Trial = {
  id: string;
  code: string;
  name: string;
  kind: string;
  cone: string | null;
  points: Point[];
};
type Problem = { errors: { path: string; says: string }[] };

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const base = (...lines: [material: string, amount: string][]) => ({
  lines: lines.map(([material, amount]) => ({ material, part: "base", amount })),
});
const glassy = base(
  ["potash-feldspar", "40"],
  ["whiting", "20"],
  ["quartz", "25"],
  ["kaolin", "15"],
);
const ladder = (different: Record<string, unknown> = {}) => ({
  name: "Iron on a clear",
  about: "How dark before it is brown?",
  kind: "ladder",
  base: glassy,
  addition: "red-iron-oxide",
  from: "0.25",
  to: "4",
  steps: 4,
  spacing: "geometric",
  cone: "6",
  ...different,
});

const lay = async (json: unknown = ladder(), who: Who = "author"): Promise<Trial> => {
  const answer = await studio.send(who, "/trials", { json });
  if (answer.status !== 201) throw new Error(await answer.text());
  return (await answer.json()) as Trial;
};
const putDown = async (path: string, json: unknown = { surface: "glossy amber" }) => {
  const answer = await studio.send("author", `${path}/results`, { json });
  if (answer.status !== 201) throw new Error(await answer.text());
  return (await answer.json()) as Result;
};
const withdraw = (
  id: string,
  json: unknown = { why: "It was another tile." },
  who: Who = "author",
) => studio.send(who, `/trials/results/${id}/withdrawal`, { method: "PUT", json });
const picture = async (shade: number) => {
  const png = await sharp({
    create: { width: 40, height: 30, channels: 3, background: { r: shade, g: 80, b: 60 } },
  })
    .png()
    .toBuffer();
  const form = new FormData();
  form.set("photo", new File([new Uint8Array(png)], "tile.png", { type: "image/png" }));
  form.set("alt", "amber, breaking on the edge");
  return form;
};

let names = 0;
const freshName = () => {
  names += 1;
  return `Amber ${names}`;
};

describe("who may do what", () => {
  const people: [Who, number][] = [
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ];

  it.each(people)("answers the %s who lays a trial out with %i", async (who, status) => {
    const before = await studio.json<{ items: unknown[] }>("author", "/trials");
    const answer = await studio.send(who, "/trials", { json: ladder() });
    expect(answer.status).toBe(status);
    const after = await studio.json<{ items: unknown[] }>("author", "/trials");
    expect(after.items.length - before.items.length).toBe(status === 201 ? 1 : 0);
  });

  it.each(people)(
    "answers the %s who puts down what came of a point with %i",
    async (who, status) => {
      const { id } = await lay();
      const answer = await studio.send(who, `/trials/${id}/points/2/results`, {
        json: { surface: "glossy", defects: ["crazing"] },
      });
      expect(answer.status).toBe(status);
      const { results } = await studio.json<Point>("author", `/trials/${id}/points/2`);
      expect(results.map(({ defects }) => defects)).toEqual(status === 201 ? [["crazing"]] : []);
    },
  );

  it.each(people)("answers the %s who makes a point a recipe with %i", async (who, status) => {
    const { id } = await lay();
    const answer = await studio.send(who, `/trials/${id}/points/3/recipe`, {
      json: { name: freshName() },
    });
    expect(answer.status).toBe(status);
    const { recipes } = await studio.json<Point>("author", `/trials/${id}/points/3`);
    expect(recipes).toHaveLength(status === 201 ? 1 : 0);
  });

  it.each(people)(
    "answers the %s who hangs a picture with %i, and shows it to the studio",
    async (who, status) => {
      const { id } = await lay();
      const result = await putDown(`/trials/${id}/points/1`);
      const form = await picture(100 + people.findIndex(([each]) => each === who));
      const answer = await studio.send(who, `/trials/results/${result.id}/photos`, {
        form,
        accept: "application/json",
      });
      expect(answer.status).toBe(status);
      if (status !== 201) return;
      const { sha256 } = (await answer.json()) as { sha256: string };
      for (const reader of everybody) {
        const seen = await studio.send(reader, `/photos/${sha256}/200`);
        expect([reader, seen.status]).toEqual([reader, reader === "visitor" ? 404 : 200]);
      }
    },
  );

  it("shows trials to people of the studio only", async () => {
    const { id } = await lay();
    for (const path of [
      "/trials",
      `/trials/${id}`,
      `/trials/${id}/sheet`,
      `/trials/${id}/points/1`,
    ])
      for (const who of everybody)
        expect((await studio.send(who, path)).status).toBe(who === "visitor" ? 401 : 200);
  });
});

describe("a trial", () => {
  it("keeps its points, each pinned to the shelf and worked out", async () => {
    const { id } = await lay();
    const trial = await studio.json<Trial>("manager", `/trials/${id}`);
    expect(trial).toMatchObject({ name: "Iron on a clear", kind: "ladder", cone: "6" });
    expect(trial.code).toMatch(/^[A-HJ-NPR-Z]{2}$/);
    expect(trial.points.map(({ mark, at }) => [mark.replace(trial.code, ""), at])).toEqual([
      ["1", [0.25]],
      ["2", [0.5]],
      ["3", [1]],
      ["4", [2]],
      ["5", [4]],
    ]);
    const [first] = trial.points;
    expect(first?.lines.at(-1)).toMatchObject({ material: "red-iron-oxide", amount: "0.25" });
    expect(first?.lines.every(({ analysis }) => analysis !== null)).toBe(true);
    expect(first?.chemistry.unity?.SiO2?.value).toBeGreaterThan(2);
  });

  it("is not moved by what comes into use on the shelf later", async () => {
    const { id, points } = await lay();
    await studio.send("manager", "/materials/whiting/analyses", {
      json: { source: "another bag", oxides: { CaO: { percent: "50" }, MgO: { percent: "3" } } },
    });
    const again = await studio.json<Trial>("author", `/trials/${id}`);
    expect(again.points.map(({ lines }) => lines)).toEqual(points.map(({ lines }) => lines));
    expect(again.points[0]?.chemistry.unity).not.toHaveProperty("MgO");
    const next = await lay();
    expect(next.points[0]?.chemistry.unity).toHaveProperty("MgO");
  });

  it("judges at the cone of the recipe that it starts from where none is said", async () => {
    const slug = await publish(studio, { different: { cones: { low: "5", high: "7" } } });
    const { cone } = await lay(ladder({ base: { recipe: slug }, cone: undefined }));
    expect(cone).toBe("5");
  });

  it("is drawn and told with its screen, by the value that the address chooses", async () => {
    const { id } = await lay(ladder({ addition: "barium-carbonate", from: "0", spacing: "even" }));
    const html = await (await studio.send("author", `/trials/${id}?show=alkali-share`)).text();
    expect(html).toContain("Alkali share of the fluxes: least");
    expect(html).toMatch(/From [A-Z]{2}2 \(1 %\) its opinion changes\.\s*(Stop|Caution)/);
    expect(html).toContain("screen-word-");
    expect(html).toContain("Nothing yet. Fire the tiles");
  });

  it("is told of in the record, in words", async () => {
    const trial = await lay(ladder({ name: "Iron for the record" }));
    const result = await putDown(`/trials/${trial.id}/points/4`);
    await studio.send("author", `/trials/results/${result.id}/photos`, { form: await picture(7) });
    await withdraw(result.id);
    await studio.send("author", `/trials/${trial.id}/points/4/recipe`, {
      json: { name: freshName() },
    });
    const html = await (await studio.send("manager", "/events")).text();
    for (const words of [
      "put the trial",
      "put down what came of point 4 of the trial",
      "hung a picture on point 4 of the trial",
      "withdrew what was put down at point 4 of the trial",
      "made point 4 of the trial",
    ])
      expect(html).toContain(words);
    expect(html).toContain(`href="/trials/${trial.id}"`);
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["no name", { name: undefined }, "name"],
    [
      "a powder that is sent along",
      {
        base: {
          lines: [{ material: { name: "Sand", formula: "SiO2" }, part: "base", amount: "1" }],
        },
      },
      "base.lines.0.material",
    ],
    [
      "an addition that is sent along",
      { addition: { name: "Rust", formula: "Fe2O3" } },
      "addition",
    ],
    ["no steps", { steps: 0 }, "steps"],
  ])("is refused with %s, with its place", async (_, different, path) => {
    const answer = await studio.send("author", "/trials", { json: ladder(different) });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors.map((error) => error.path)).toEqual([path]);
  });

  it("does not show the studio what is private", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const json = ladder({ base: { recipe: slug } });
    const own = await studio.send("author", "/trials", { json });
    expect(own.status).toBe(422);
    expect(((await own.json()) as Problem).errors[0]?.says).toContain("is private");
    expect((await studio.send("other member", "/trials", { json })).status).toBe(404);
  });

  it("takes a form, and comes back with what was typed where something is missing", async () => {
    const form = {
      kind: "line",
      "corners.0.text": "Quartz 60\nWhiting 40",
      "corners.1.text": "Kaolin 50\nWhiting 50",
      steps: "2",
      about: "Stony or glassy?",
    };
    const nameless = await studio.send("author", "/trials", { form });
    expect(nameless.status).toBe(422);
    const html = await nameless.text();
    expect(html).toContain("A trial needs a name.");
    expect(html).toContain("Stony or glassy?");
    const named = await studio.send("author", "/trials", { form: { ...form, name: "Stones" } });
    expect(named.status).toBe(303);
    const page = await studio.send("author", named.headers.get("location") ?? "");
    expect(await page.text()).toContain("A 50, B 50");
  });
});

describe("two trials in one kiln", () => {
  it("carry letters of their own, which stay theirs", async () => {
    const [one, other] = [await lay(), await lay()];
    expect(one.code).not.toBe(other.code);
    expect(one.points[0]?.mark).not.toBe(other.points[0]?.mark);
    await lay();
    const again = await studio.json<Trial>("manager", `/trials/${one.id}`);
    expect(again.code).toBe(one.code);
    const { items } = await studio.json<{ items: Trial[] }>("manager", "/trials");
    expect(items.find(({ id }) => id === other.id)?.code).toBe(other.code);
    for (const path of ["", "/sheet", "/points/1"]) {
      const html = await (await studio.send("author", `/trials/${other.id}${path}`)).text();
      expect(html).toContain(`${other.code}1`);
      expect(html).not.toMatch(/\bL1\b/);
    }
  });
});

describe("a recipe that trials start from", () => {
  it("names them to people of the studio, by any of its revisions and by no other recipe", async () => {
    const [slug, longer] = [await publish(studio), await publish(studio)];
    const ladderOn = (recipe: string, name: string) => lay(ladder({ base: { recipe }, name }));
    const first = await ladderOn(slug, "Iron on it");
    const second = await ladderOn(`${slug}@1`, "More iron on it");
    await ladderOn(longer, "Iron on another");
    const on = async (who: Who) =>
      (await studio.json<{ trialsOn: { id: string }[] }>(who, `/recipes/${slug}`)).trialsOn.map(
        ({ id }) => id,
      );
    expect(await on("other member")).toEqual([second.id, first.id]);
    expect(await on("visitor")).toEqual([]);
    const html = await (await studio.send("author", `/recipes/${slug}`)).text();
    expect(html).toContain("Trials that start from it");
    expect(html).toContain(`href="/trials/${first.id}"`);
  });
});

describe("what was put down wrong", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s who withdraws it with %i", async (who, status) => {
    const { id } = await lay();
    const result = await putDown(`/trials/${id}/points/2`);
    expect((await withdraw(result.id, { why: "It was another tile." }, who)).status).toBe(status);
    const { results } = await studio.json<Point>("author", `/trials/${id}/points/2`);
    expect(results.map(({ withdrawn }) => withdrawn?.why ?? null)).toEqual([
      status === 200 ? "It was another tile." : null,
    ]);
  });

  it("stays on the page with the reason, and says nothing for the recipe that the point becomes", async () => {
    const { id } = await lay(ladder({ cone: "6" }));
    const wrong = await putDown(`/trials/${id}/points/3`, { surface: "dry", cone: "9" });
    const withdrawn = await studio.send("author", `/trials/results/${wrong.id}/withdrawal`, {
      form: { why: "It stood in the other kiln." },
    });
    expect(withdrawn.status).toBe(303);
    const html = await (await studio.send("author", `/trials/${id}/points/3`)).text();
    expect(html).toContain("It stood in the other kiln.");
    expect(html).toContain("<s>Dry; cone 9.</s>");
    const answer = await studio.send("author", `/trials/${id}/points/3/recipe`, {
      json: { name: freshName() },
    });
    const { head } = (await answer.json()) as { head: { cones: unknown; surface: string } };
    expect(head).toMatchObject({ cones: { low: "6", high: "6" }, surface: "" });
  });

  it("is withdrawn once, with a reason", async () => {
    const { id } = await lay();
    const { id: result } = await putDown(`/trials/${id}/points/1`);
    const silent = await withdraw(result, { why: "" });
    expect(silent.status).toBe(422);
    expect(((await silent.json()) as Problem).errors.map(({ path }) => path)).toEqual(["why"]);
    const form = await studio.send("author", `/trials/results/${result}/withdrawal`, {
      form: { why: "" },
    });
    expect(await form.text()).toContain("To put right");
    expect((await withdraw(result)).status).toBe(200);
    expect((await withdraw(result)).status).toBe(409);
    expect((await withdraw("no")).status).toBe(404);
  });
});

describe("what came of a point", () => {
  it("is put down by a form and read back with body and defects", async () => {
    const { id } = await lay();
    const body = await studio.send("manager", "/bodies", {
      json: { name: "Loft stoneware", cones: { low: "5", high: "7" } },
    });
    const { slug } = (await body.json()) as { slug: string };
    const put = await studio.send("author", `/trials/${id}/points/2/results`, {
      form: { surface: "satin", cone: "6", body: slug, defects: "running", remark: "Too thick." },
    });
    expect(put.status).toBe(303);
    const html = await (await studio.send("author", `/trials/${id}/points/2`)).text();
    expect(html).toContain("Satin, running; cone 6 on Loft stoneware.");
    expect(html).toContain("Too thick.");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["nothing in it", {}, "surface"],
    ["a body that is not here", { surface: "gloss", body: "moon-clay" }, "body"],
    ["a firing that is not here", { surface: "gloss", firing: "no" }, "firing"],
    ["a cone that is none", { surface: "gloss", cone: "66" }, "cone"],
    ["a defect that is none", { defects: ["ugly"] }, "defects"],
    ["a field that is none", { surface: "gloss", colour: "red" }, "colour"],
  ])("is refused with %s, with its place", async (_, json, path) => {
    const { id } = await lay();
    const answer = await studio.send("author", `/trials/${id}/points/1/results`, { json });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors.map((error) => error.path)).toEqual([path]);
  });

  it("hangs a picture once, and refuses what is none", async () => {
    const { id } = await lay();
    const result = await putDown(`/trials/${id}/points/1`);
    const path = `/trials/results/${result.id}/photos`;
    const send = (form: FormData) =>
      studio.send("author", path, { form, accept: "application/json" });
    expect((await send(await picture(9))).status).toBe(201);
    expect((await send(await picture(9))).status).toBe(200);
    const word = new FormData();
    word.set("photo", new File(["not a picture"], "tile.png"));
    expect((await send(word)).status).toBe(415);
    const { results } = await studio.json<Point>("author", `/trials/${id}/points/1`);
    expect(results[0]?.photos.map(({ alt }) => alt)).toEqual(["amber, breaking on the edge"]);
  });

  it("loses a picture that a manager has removed, and says so", async () => {
    const { id } = await lay();
    const { id: result } = await putDown(`/trials/${id}/points/1`);
    const path = `/trials/results/${result}/photos`;
    const accept = "application/json";
    const hung = await studio.send("author", path, { form: await picture(33), accept });
    const { sha256 } = (await hung.json()) as { sha256: string };
    const removal = { method: "PUT", json: { why: "A face is in it." } };
    const removed = await studio.send("manager", `/photos/${sha256}/removal`, removal);
    expect(removed.status).toBe(200);
    expect((await studio.send("author", `/photos/${sha256}/200`)).status).toBe(410);
    const page = await (await studio.send("author", `/trials/${id}/points/1`)).text();
    expect(page).toContain("This picture was removed.");
    const record = await (await studio.send("manager", "/events")).text();
    expect(record).toContain("removed a picture from the trial");
    const again = await studio.send("author", path, { form: await picture(33), accept });
    expect(again.status).toBe(409);
  });

  it("is not there for a point or a result that is not", async () => {
    const { id } = await lay();
    for (const path of [
      `/trials/${id}/points/6/results`,
      `/trials/${id}/points/0/results`,
      `/trials/${id}/points/x/results`,
      "/trials/no/points/1/results",
      `/trials/results/${id}/photos`,
    ]) {
      const answer = await studio.send("author", path, { json: { surface: "gloss" } });
      expect([path, answer.status]).toEqual([path, 404]);
    }
  });
});

describe("a point that becomes a recipe", () => {
  it("is a draft of whoever asks, at its cone, and each side names the other", async () => {
    const trial = await lay();
    await putDown(`/trials/${trial.id}/points/3`, { surface: "amber gloss", cone: "5" });
    const name = freshName();
    const answer = await studio.send("other member", `/trials/${trial.id}/points/3/recipe`, {
      json: { name },
    });
    expect(answer.status).toBe(201);
    const recipe = (await answer.json()) as Record<string, unknown>;
    expect(recipe).toMatchObject({
      name,
      owner: { name: "Jonah Brackley" },
      standing: { is: "draft", for: "decorative" },
      trial: { id: trial.id, n: 3 },
      head: { cones: { low: "5", high: "5" }, surface: "amber gloss" },
    });
    const lines = (recipe.head as { lines: { amount: string }[] }).lines;
    expect(lines.map(({ amount }) => amount)).toEqual(["40", "20", "25", "15", "1"]);
    const page = await (await studio.send("author", `/recipes/${recipe.slug}`)).text();
    expect(page).toContain(`href="/trials/${trial.id}/points/3"`);
    const back = await (await studio.send("author", `/trials/${trial.id}`)).text();
    expect(back).toContain(`href="/recipes/${recipe.slug}"`);
    expect((await studio.send("visitor", `/recipes/${recipe.slug}`)).status).toBe(404);
  });

  it("keeps a base of 100 where the blend has more decimals than a recipe", async () => {
    const corners = [glassy, base(["whiting", "100"])];
    const { id } = await lay({ name: "Thirds", kind: "line", corners, steps: 3 });
    const answer = await studio.send("author", `/trials/${id}/points/2/recipe`, {
      json: { name: freshName() },
    });
    const { head } = (await answer.json()) as { head: { lines: { amount: string }[] } };
    expect(head.lines.map(({ amount }) => amount)).toEqual([
      "26.666667",
      "46.666667",
      "16.666666",
      "10",
    ]);
  });

  it("needs a name that no other has", async () => {
    const { id } = await lay();
    const name = freshName();
    const path = `/trials/${id}/points/1/recipe`;
    expect((await studio.send("author", path, { form: { name } })).status).toBe(303);
    const again = await studio.send("author", path, { form: { name } });
    expect(again.status).toBe(422);
    expect(await again.text()).toContain("Another recipe has this name already.");
    expect((await studio.send("author", path, { json: {} })).status).toBe(422);
  });
});

describe("the sheet to weigh from", () => {
  type Sheet = {
    smallestGrams: string;
    points: { mark: string; lines: { material: string; grams: string }[]; totalGrams: string }[];
    stocks: {
      colourant: string;
      carrier: string;
      colourantGrams: string;
      carrierGrams: string;
      takes: { n: number; grams: string; leaveOut: string }[];
    }[];
  };

  // By hand: on 0.1 g with 2 % an addition is 2.5 g or more, so 0.25 % of it needs 1000 g of base.
  // At 100 g, points 1 to 4 have 0.25, 0.5, 1 and 2 g: a stock of one in ten, 3.75 g and a fifth over,
  // 5 g in whole grams, in 45 g of the powder there is most of.
  it("weighs pale points first, and says how to weigh what is too little", async () => {
    const { id, code } = await lay();
    const sheet = await studio.json<Sheet>(
      "author",
      `/trials/${id}/sheet?grams=100&scaleGrams=0.1`,
    );
    expect(sheet.points.map(({ mark }) => mark)).toEqual([1, 2, 3, 4, 5].map((n) => `${code}${n}`));
    expect(sheet.smallestGrams).toBe("1000");
    expect(sheet.stocks).toMatchObject([
      {
        colourant: "Red iron oxide",
        carrier: "Potash feldspar",
        colourantGrams: "5",
        carrierGrams: "45",
        takes: [
          { n: 1, grams: "2.5", leaveOut: "2.25" },
          { n: 2, grams: "5", leaveOut: "4.5" },
          { n: 3, grams: "10", leaveOut: "9" },
          { n: 4, grams: "20", leaveOut: "18" },
        ],
      },
    ]);
  });

  it("starts with the palest of a blend whose first corner is the darkest", async () => {
    const dark = {
      lines: [...glassy.lines, { material: "red-iron-oxide", part: "addition", amount: "8" }],
    };
    const { id, code } = await lay({
      name: "Dark first",
      kind: "line",
      corners: [dark, glassy],
      steps: 2,
    });
    const sheet = await studio.json<Sheet>(
      "author",
      `/trials/${id}/sheet?grams=500&scaleGrams=0.1`,
    );
    expect(sheet.points.map(({ mark }) => mark)).toEqual([3, 2, 1].map((n) => `${code}${n}`));
    expect(sheet.stocks).toEqual([]);
  });

  it("carries marks, cautions and the stock in words", async () => {
    const { id, code } = await lay(ladder({ addition: "barium-carbonate" }));
    const html = await (
      await studio.send("author", `/trials/${id}/sheet?grams=100&scaleGrams=0.1`)
    ).text();
    expect(html).toContain("grind 5 g of it into 45 g of Potash feldspar");
    expect(html).toContain(`${code}3: take 10 g of the stock, leave out 9 g of Potash feldspar`);
    expect(html).toContain("Dust.");
    expect(html).toMatch(/[Bb]arium/);
  });

  it.each([
    ["grams=0", "grams"],
    ["grams=10.05&scaleGrams=0.1", "grams"],
    ["scaleGrams=0", "scaleGrams"],
    ["error=50", "error"],
    ["grams=plenty", "grams"],
  ])("refuses %s beside its field", async (query, path) => {
    const { id } = await lay();
    const answer = await studio.send("author", `/trials/${id}/sheet?${query}`, {
      accept: "application/json",
    });
    expect(answer.status).toBe(422);
    expect(((await answer.json()) as Problem).errors[0]?.path).toBe(path);
    const html = await (await studio.send("author", `/trials/${id}/sheet?${query}`)).text();
    expect(html).toContain(`id="field-${path}-fault"`);
  });
});
