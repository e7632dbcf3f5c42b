import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { HandoutJson } from "../../src/routes/handout-json.ts";
import type { RestatedAnswer } from "../../src/routes/restate-json.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

/** An invented feldspar with more soda than the studio's, and a lean one that brings no potash. */
const sodaSpar = "SiO2 66.3 ± 0.5\nAl2O3 19.8\nK2O 9.1\nNa2O 3.9\nCaO 0.4\nLOI 0.3";
const sodaSparInline = {
  SiO2: { percent: "66.3", plusMinus: "0.5" },
  ...{ Al2O3: { percent: "19.8" }, K2O: { percent: "9.1" } },
  ...{ Na2O: { percent: "3.9" }, CaO: { percent: "0.4" } },
};

type Restated = HandoutJson & { errors?: { path: string; says: string }[] };
type Piece = { restated: RestatedAnswer | null; restatedSays: string };

describe("handouts with the reader's own powders", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  // People of the studio may take the solver's time, which a busy machine can need.
  const ask = async (path: string, own: object[], who: Who = "author") => {
    const answer = await studio.send(who, path, { json: { own } });
    const body = (await answer.json()) as Restated;
    return {
      answer,
      body,
      pieces: (body.recipes ?? []) as (Restated["recipes"][number] & Piece)[],
    };
  };
  const restate = async (shelf: object[]) => {
    const sent = { json: { target: { recipe: slug }, shelf, keepAdditions: true } };
    return (await (await studio.send("author", "/restate", sent)).json()) as RestatedAnswer;
  };
  const same = ({ status, lines, unity, misses, sum, worst, withinDoubt }: RestatedAnswer) => ({
    ...{ status, unity, misses, sum, worst, withinDoubt },
    lines: lines.map(({ material, name, part, amount }) => ({ material, name, part, amount })),
  });

  it("come to what restating the same comes to", async () => {
    const own = [{ material: "potash-feldspar", name: "Quay spar", oxides: sodaSpar }];
    const { answer, pieces } = await ask(`/recipes/${slug}/handout`, own);
    expect(answer.status).toBe(200);
    const inline = {
      name: "Quay spar",
      analysis: sodaSparInline,
      lossOnIgnition: { percent: "0.3" },
    };
    const there = await restate([inline, "whiting", "quartz", "kaolin"] as object[]);
    const found = pieces[0]?.restated;
    if (!found) throw new Error("not restated");
    expect(same(found)).toEqual(same(there));
    // Soda is no potash: no mix of these has the formula.
    expect([found.status, pieces[0]?.restatedSays.startsWith("Not the same glaze")]).toEqual([
      "nearest",
      true,
    ]);
  });

  it("are exact where the powder is the same by another name", async () => {
    const own = [
      { material: "potash-feldspar", formula: "K2O·Al2O3·6SiO2" },
      { material: "whiting", name: "Chalk", formula: "CaCO3" },
    ];
    const { pieces } = await ask(`/recipes/${slug}/handout`, own);
    const [piece] = pieces;
    expect(piece?.restated?.status).toBe("exact");
    expect(piece?.restatedSays).toContain("draft");
    const amounts = Object.fromEntries(
      (piece?.restated?.lines ?? []).map(({ material, amount }) => [material, Number(amount)]),
    );
    expect(amounts["Potash feldspar, your own"]).toBeCloseTo(40, 4);
    expect(amounts.Chalk).toBeCloseTo(20, 4);
    expect(amounts["red-iron-oxide"]).toBe(2);
  });

  it("leave alone what a powder is not in, and what comes on top", async () => {
    const bare = await publish(studio, {
      lines: [
        ["quartz", "60"],
        ["whiting", "40"],
      ],
    });
    const family = await studio.send("author", "/families", {
      json: { name: "Skuas", recipes: [slug, bare] },
    });
    expect(family.status).toBe(201);
    const spar = await ask("/families/skuas/handout", [
      { material: "potash-feldspar", oxides: sodaSpar },
    ]);
    expect(spar.pieces.map((each) => each.restated?.status ?? null)).toEqual(["nearest", null]);
    expect(spar.pieces[1]?.restatedSays).toContain("it stays as it is");
    const iron = await ask("/families/skuas/handout", [
      { material: "red-iron-oxide", oxides: "Fe2O3 96\nSiO2 4" },
    ]);
    expect(iron.pieces[0]?.restatedSays).toContain("What comes on top is kept as it is");
  });

  it.each<[string, object[], string[]]>([
    ["nothing", [], ["own"]],
    ["blank rows alone", [{}, {}], ["own.0.material"]],
    ["no powder", [{ oxides: "SiO2 99" }], ["own.0.material"]],
    ["one that is not in it", [{ material: "talc", oxides: "SiO2 99" }], ["own.0.material"]],
    [
      "one twice",
      [
        { material: "quartz", oxides: "SiO2 99" },
        { material: "quartz", oxides: "SiO2 98" },
      ],
      ["own.1.material"],
    ],
    ["no analysis", [{ material: "quartz" }], ["own.0.oxides"]],
    ["what reads as none", [{}, { material: "quartz", oxides: "SiO2 99\nsand" }], ["own.1.oxides"]],
    ["too much of it", [{ material: "quartz", oxides: "SiO2 99\nCaO 9" }], ["own.0.oxides"]],
    ["both ways", [{ material: "quartz", oxides: "SiO2 99", formula: "SiO2" }], ["own.0.formula"]],
    ["no formula", [{ material: "quartz", formula: "Sand!" }], ["own.0.formula"]],
    ["a loss twice", [{ material: "quartz", oxides: "SiO2 99\nLOI 1", loss: "1" }], ["own.0.loss"]],
    ["a loss of a formula", [{ material: "quartz", formula: "SiO2", loss: "1" }], ["own.0.loss"]],
    [
      "a loss of more than all",
      [{ material: "quartz", oxides: "SiO2 9", loss: "101" }],
      ["own.0.loss"],
    ],
    ["another's name", [{ material: "quartz", name: "Kaolin", oxides: "SiO2 99" }], ["own.0.name"]],
    ["a field that is none", [{ material: "quartz", mood: "grey" }], ["own.0.mood"]],
  ])("refuse %s at its place", async (_, own, paths) => {
    const { answer, body } = await ask(`/recipes/${slug}/handout`, own);
    expect([answer.status, body.errors?.map(({ path }) => path)]).toEqual([422, paths]);
  });

  it("keep all that was typed where something is wrong, and show it beside the answer", async () => {
    const typed = {
      "own.0.material": "potash-feldspar",
      "own.0.name": "Quay <spar>",
      "own.0.oxides": `${sodaSpar}\nSand 3`,
      "own.1.material": "quartz",
      "own.1.oxides": "SiO2 99.2",
      "own.1.loss": "0.3",
    };
    const path = `/recipes/${slug}/handout?weight=lb&tub=10&temperature=F`;
    const refused = await studio.send("author", path, { form: typed });
    expect(refused.status).toBe(422);
    const again = await refused.text();
    for (const words of [
      'href="#field-own.0.oxides"',
      "Row 7: No oxide is written “Sand” here",
      "Quay &lt;spar&gt;",
      "Sand 3",
      "SiO2 99.2",
      "Tub of 10 lb",
      "weight=lb&amp;tub=10&amp;temperature=F",
    ])
      expect(again, words).toContain(words);
    const answer = await studio.send("author", path, {
      form: { ...typed, "own.0.oxides": sodaSpar },
    });
    expect(answer.status).toBe(200);
    const shown = await answer.text();
    for (const words of [
      "Nearest: not the same glaze.",
      "standing-draft",
      "until then it is decorative only",
      "Quay &lt;spar&gt;",
      "<strong> yours</strong>",
      "Tub of 10 lb",
      "SiO2 99.2",
      "Quartz, your own: no ± was given",
    ])
      expect(shown, words).toContain(words);
  });

  it("warn of what the reader's powder brings that the studio's did not", async () => {
    const leaded = "SiO2 62\nAl2O3 18\nK2O 16\nPbO 3";
    const form = { "own.0.material": "potash-feldspar", "own.0.oxides": leaded };
    const answer = await studio.send("author", `/recipes/${slug}/handout`, { form });
    const shown = await answer.text();
    const [before = "", restated = ""] = shown.split('id="restated"');
    expect(before).not.toContain("finding-stop");
    expect(restated).toContain("finding-stop");
    expect(restated).toMatch(/lead/i);
  });

  it("say that a powder is not used where the mix comes nearer without it", async () => {
    const form = { "own.0.material": "quartz", "own.0.oxides": "SiO2 60\nP2O5 40" };
    const answer = await studio.send("author", `/recipes/${slug}/handout`, { form });
    expect(await answer.text()).toContain("Quartz, your own is not in it");
  });

  it("are worked out for whoever holds a link, and nothing is kept of it", async () => {
    const hidden = await publish(studio, { shownTo: "private" });
    const made = await studio.send("author", `/recipes/${hidden}/handouts`, { json: {} });
    const { link } = (await made.json()) as { link: string };
    const before = await studio.json<{ items: unknown[] }>("manager", "/events");
    const own = [{ material: "whiting", formula: "CaCO3" }];
    const { pieces, answer } = await ask(new URL(link).pathname, own, "visitor");
    expect([answer.status, pieces[0]?.restated?.status]).toEqual([200, "exact"]);
    expect(answer.headers.get("cache-control")).toBe("no-store");
    expect(await studio.json("manager", "/events")).toEqual(before);
    const elsewhere = await studio.send("visitor", `/recipes/${hidden}/handout`, {
      json: { own: [{}] },
    });
    expect(elsewhere.status).toBe(404);
  });
});
