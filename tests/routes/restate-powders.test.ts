import { Decimal } from "decimal.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RestatedAnswer, RestatedLine } from "../../src/routes/restate-json.ts";
import { solver } from "../../src/work/solver.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  const lines = await stockShelf(studio);
  const [, whiting] = lines;
  if (!whiting) throw new Error("no whiting");
  const onTop = { ...whiting, part: "addition" as const, amount: new Decimal(4) };
  await publishGlaze(studio, { name: "Tern Grey", lines: [...lines, onTop] });
  const post = async (path: string, json: unknown) => {
    const answer = await studio.send("manager", path, { json });
    if (answer.status !== 201) throw new Error(`${path}: ${await answer.text()}`);
    return (await answer.json()) as { id: string };
  };
  const silica = { name: "Silica", region: "United States", caution: "Buy the flour." };
  await post("/materials/quartz/names", silica);
  await post("/materials/quartz/names", { name: "Ground flint", region: "United States" });
  await post("/materials", { name: "Silica sand", formula: "SiO2" });
  await post("/materials/silica-sand/names", { name: "Silica", region: "United Kingdom" });
  await post("/suppliers", { name: "Quayside Ceramics" });
  const lot = {
    supplier: "quayside-ceramics",
    packGrams: "10000",
    packPrice: "9",
    currency: "GBP",
  };
  const bag = { source: "Bag of the spring", oxides: { SiO2: { percent: 98 } }, inUse: false };
  const { id: analysis } = await post("/materials/quartz/analyses", bag);
  await post("/materials/quartz/lots", { ...lot, analysis, grams: "10000" });
  for (const slug of ["kaolin", "whiting"])
    await post(`/materials/${slug}/lots`, { ...lot, grams: "10000" });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await solver.end();
  await studio.close();
});

const shelf = ["potash-feldspar", "whiting", "quartz", "kaolin"];
const target = { recipe: "tern-grey" };

async function restated(who: Who, more: Record<string, unknown> = {}): Promise<RestatedAnswer> {
  const answer = await studio.send(who, "/restate", { json: { target, shelf, ...more } });
  expect(answer.status).toBe(200);
  return (await answer.json()) as RestatedAnswer;
}
const lineOf = (found: RestatedAnswer, slug: string): RestatedLine => {
  const line = found.lines.find(({ material }) => material === slug);
  if (!line) throw new Error(`no ${slug}`);
  return line;
};

describe("the powders of a restated glaze", () => {
  it("are called as they are where they are bought, with what their words can also mean", async () => {
    const found = await restated("visitor", { region: "united states" });
    expect(lineOf(found, "quartz").called).toEqual({
      name: "Ground flint",
      caution: "",
      also: ["Silica"],
      lookAlikes: [
        expect.objectContaining({ word: "Silica", slug: "silica-sand", region: "United Kingdom" }),
      ],
    });
    expect(lineOf(found, "kaolin").called).toBeNull();
    expect(lineOf(await restated("visitor"), "quartz").called).toBeUndefined();
    const nowhere = { target, shelf, region: "Atlantis" };
    const refused = await studio.send("visitor", "/restate", { json: nowhere });
    expect(refused.status).toBe(422);
    const { errors } = (await refused.json()) as { errors: { path: string; says: string }[] };
    expect(errors).toEqual([
      { path: "region", says: expect.stringMatching(/United Kingdom, United States/) },
    ]);
  });

  it("say which analysis counted: in use, of the newest lot, or not of this lot with twice the ±", async () => {
    const inUse = await restated("author");
    expect(lineOf(inUse, "quartz").analysis).toEqual({
      ...{ source: "demo analysis", measuredOn: null },
      is: "in use",
    });
    const newest = await restated("author", { from: "newestLots" });
    expect(lineOf(newest, "quartz").analysis).toMatchObject({
      ...{ source: "Bag of the spring", is: "of the lot" },
    });
    expect(lineOf(newest, "kaolin").analysis?.is).toBe("not this lot");
    expect(lineOf(newest, "potash-feldspar").analysis?.is).toBe("in use");
    const ratio = Number(lineOf(newest, "quartz").amount) / Number(lineOf(inUse, "quartz").amount);
    expect(ratio).toBeGreaterThan(1.003);

    const two = {
      target: {
        lines: [
          { material: "kaolin", part: "base", amount: 1 },
          { material: "whiting", part: "base", amount: 1 },
        ],
      },
      shelf: ["kaolin", "whiting"],
    };
    const [own, doubled] = [
      await restated("author", two),
      await restated("author", { ...two, from: "newestLots" }),
    ];
    const loss = (found: RestatedAnswer) => found.figures?.loss.got.plusMinus ?? 0;
    expect(loss(own)).toBeGreaterThan(0);
    expect(loss(doubled)).toBeCloseTo(2 * loss(own), 9);
    const refused = await studio.send("visitor", "/restate", {
      json: { target, shelf, from: "newestLots" },
    });
    expect(refused.status).toBe(422);
  });

  it("stand on the page by both names, with the choice of regions", async () => {
    const page = await (await studio.send("visitor", "/restate")).text();
    expect(page).toContain('<option value="United States"');
    const form = new FormData();
    form.append("target.text", "tern-grey");
    for (const slug of shelf) form.append("shelf", slug);
    form.append("region", "United States");
    form.append("from", "newestLots");
    const html = await (await studio.send("author", "/restate", { form })).text();
    expect(html).toContain("Ground flint (here: Quartz)");
    expect(html).toContain("not this lot, its ± doubled");
    expect(html).toContain("no name there is on record");
  });
});

describe("a fork with the lines of a restated glaze", () => {
  const sent = async () => {
    const { lines } = await restated("other member", { bounds: { kaolin: { most: "10" } } });
    return lines.map(({ part, material, amount }) => ({
      ...{ part, material },
      amount: Number(amount).toFixed(2),
    }));
  };

  it("is one press on the page: a draft of one's own, with its lineage and its additions", async () => {
    const form = new FormData();
    form.append("target.text", "tern-grey");
    for (const slug of shelf) form.append("shelf", slug);
    form.append("bounds.kaolin.most", "10");
    form.append("keepAdditions", "on");
    const html = await (await studio.send("other member", "/restate", { form })).text();
    const button = html.slice(html.indexOf('action="/recipes/tern-grey/forks"'));
    const fields = button.slice(0, button.indexOf("</form>")).matchAll(/<input[^>]*>/g);
    const pressed = new URLSearchParams();
    for (const [input] of fields)
      pressed.append(
        / name="([^"]*)"/.exec(input)?.[1] ?? "",
        / value="([^"]*)"/.exec(input)?.[1] ?? "",
      );
    expect(pressed.get("name")).toBe("Tern Grey restated");
    const once = Object.fromEntries(pressed);
    const [made, again] = [
      await studio.send("other member", "/recipes/tern-grey/forks", { form: once }),
      await studio.send("other member", "/recipes/tern-grey/forks", { form: once }),
    ];
    expect([made.status, again.status]).toEqual([303, 303]);
    expect(again.headers.get("location")).toBe(made.headers.get("location"));
    type Fork = {
      standing: { is: string };
      forkedFrom: { slug: string; number: number };
      head: { message: string; lines: { part: string; material: string }[] };
    };
    const fork = await studio.json<Fork>("visitor", "/recipes/tern-grey-restated");
    expect(fork.standing.is).toBe("draft");
    expect(fork.forkedFrom).toMatchObject({ slug: "tern-grey" });
    expect(fork.head.message).toBe("Restated from Tern Grey, revision 1.");
    const parts = fork.head.lines.map(({ part, material }) => `${part} ${material}`);
    expect(parts).toContain("addition whiting");
  });

  it("takes JSON as well, and keeps what was typed where the name is taken or a powder unknown", async () => {
    const lines = await sent();
    const send = (json: Record<string, unknown>) =>
      studio.send("author", "/recipes/tern-grey/forks", { json });
    const made = await send({ name: "Tern Pale", revision: 1, lines });
    expect(made.status).toBe(201);
    expect(await made.text()).toContain("Forked from Tern Grey, revision 1, with other lines");
    expect((await send({ name: "Tern Void", lines: [] })).status).toBe(422);
    const unknown = await send({
      name: "Tern Void",
      lines: [{ part: "base", material: "unobtainium", amount: 1 }],
    });
    expect(unknown.status).toBe(422);
    expect(await unknown.text()).toContain("lines.0.material");

    const taken: Record<string, string> = {
      name: "Tern Pale",
      revision: "1",
      message: "Restated.",
    };
    lines.forEach(({ part, material, amount }, row) => {
      taken[`lines.${row}.part`] = part;
      taken[`lines.${row}.material`] = material;
      taken[`lines.${row}.amount`] = amount;
    });
    const again = await studio.send("author", "/recipes/tern-grey/forks", { form: taken });
    expect(again.status).toBe(422);
    const html = await again.text();
    expect(html).toContain('name="lines.3.material"');
    expect(html).toContain('value="Restated."');
    const visitor = await studio.send("visitor", "/restate", {
      form: { "target.text": "tern-grey", allSold: "on" },
    });
    expect(await visitor.text()).toContain("fork Tern Grey with these lines");
  });
});
