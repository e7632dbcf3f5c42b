import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Compared = {
  left: { recipe: { slug: string }; number: number; cost: { total: unknown; says: string } | null };
  right: Compared["left"] & { standing: { is: string }; tiles: unknown[] };
  lines: { part: string; material: string; is: string; by: string; says: string }[];
  otherAnalyses: { material: string; left: string; right: string }[];
  differences: { of: string; difference: number; plusMinus: number; says: string }[];
};

let studio: TestStudio;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  slug = await publish(studio);
  const next = revision({ cones: { low: "5", high: "6" }, use: "functional" }, [
    ["potash-feldspar", "40"],
    ["whiting", "25"],
    ["quartz", "25"],
    ["barium-carbonate", "10"],
    ["red-iron-oxide", "2", "addition"],
  ]);
  const json = { basedOn: 1, ...next };
  const answer = await studio.send("author", `/recipes/${slug}/revisions`, { json });
  if (answer.status !== 201) throw new Error(await answer.text());
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const compare = (left: string, right: string, who: Who = "author") =>
  studio.json<Compared>(who, `/compare?left=${left}&right=${right}`);
const changes = ({ lines }: Compared) =>
  lines.map(({ material, is, by }) => `${material} ${is} ${by}`);

describe("two revisions side by side", () => {
  it.each(everybody)("are shown to the %s, and on a page", async (who) => {
    const path = `/compare?left=${slug}@1&right=${slug}`;
    expect((await studio.send(who, path)).status).toBe(200);
    const { left, right } = await compare(`${slug}@1`, slug, who);
    expect([left.number, right.number]).toEqual([1, 2]);
    expect(left.cost === null).toBe(who === "visitor");
  });

  it("tell every line that came, went or moved", async () => {
    expect(changes(await compare(`${slug}@1`, `${slug}@2`))).toEqual([
      "potash-feldspar same 0",
      "whiting changed 5",
      "quartz same 0",
      "kaolin removed -15",
      "barium-carbonate added 10",
      "red-iron-oxide same 0",
    ]);
  });

  it("tell what the chemistry differs by, and what cannot be told apart", async () => {
    const { differences } = await compare(`${slug}@1`, `${slug}@2`);
    const barium = differences.find(({ of }) => of === "BaO");
    expect(barium?.difference).toBeGreaterThan(0);
    expect(barium?.says).toMatch(/^differs by \+0\.\d+ ± 0\.\d+$/);
    const same = await compare(`${slug}@1`, `${slug}@1`);
    for (const { says } of same.differences) expect(says).toBe("cannot be told apart");
    expect(same.lines.every(({ is }) => is === "same")).toBe(true);
  });

  it("show a changed line as changed also where the chemistry cannot tell", async () => {
    const lines: [string, string][] = [
      ["potash-feldspar", "40"],
      ["whiting", "20"],
      ["quartz", "25.01"],
      ["kaolin", "14.99"],
    ];
    const other = await publish(studio, { lines });
    const { lines: compared, differences } = await compare(`${slug}@1`, other);
    expect(compared.find(({ material }) => material === "quartz")?.says).toBe("changed by +0.01");
    expect(differences.length).toBeGreaterThan(0);
    for (const { says } of differences) expect(says).not.toContain("none");
  });

  it("name both analyses where one powder is pinned to two", async () => {
    const before = await publish(studio);
    const oxides = { SiO2: { percent: "98.5" }, Al2O3: { percent: "0.9" } };
    const json = {
      source: "Bag of the spring",
      measuredOn: "2026-03-01",
      oxides,
      lossOnIgnition: { percent: "0.2" },
    };
    const added = await studio.send("manager", "/materials/quartz/analyses", { json });
    expect(added.status).toBe(201);
    const after = await publish(studio);
    const { otherAnalyses, lines } = await compare(before, after);
    expect(otherAnalyses).toMatchObject([
      { material: "quartz", right: "Bag of the spring, 2026-03-01" },
    ]);
    expect(lines.find(({ material }) => material === "quartz")?.says).toBe(
      "changed: same amount, another analysis",
    );
  });

  it("say what a kilogram costs, or which powders have no price", async () => {
    const supplier = { name: "Quayside Ceramics" };
    await studio.send("manager", "/suppliers", { json: supplier });
    const buy = (material: string, packPrice: string) =>
      studio.send("manager", `/materials/${material}/lots`, {
        json: {
          supplier: supplier.name,
          packGrams: "1000",
          packPrice,
          currency: "GBP",
          grams: "1000",
        },
      });
    for (const material of ["potash-feldspar", "whiting", "quartz", "kaolin"])
      await buy(material, "1");
    const { left } = await compare(`${slug}@1`, slug);
    expect(left.cost).toMatchObject({
      total: null,
      known: [{ amount: "1", currency: "GBP" }],
      without: ["Red iron oxide"],
      says: "1.00 GBP without Red iron oxide",
    });
    await buy("red-iron-oxide", "10");
    // By pencil: 1 kg of base at 1.00 a kilogram, and 20 g of iron at 10.00.
    expect((await compare(`${slug}@1`, slug)).left.cost?.says).toBe("1.20 GBP");
  });

  it("tell on the page what the JSON tells", async () => {
    const page = await (
      await studio.send("author", `/compare?left=${slug}@1&right=${slug}`)
    ).text();
    const { lines, differences } = await compare(`${slug}@1`, slug);
    for (const { says } of [...lines, ...differences]) expect(page).toContain(says);
    expect(page).toContain("cones 5 to 6");
    expect(page).toContain("Decorative only");
    expect(page).toContain("No tile of this melt has been fired yet.");
    expect(page.match(/compare-differs/g)?.length).toBeGreaterThanOrEqual(4);
  });
});

describe("what is asked for", () => {
  it("is a form where nothing is, and where one box is empty", async () => {
    const blank = await (await studio.send("visitor", "/compare")).text();
    expect(blank.match(/<input[^>]* name="(left|right)"/g)).toHaveLength(2);
    const half = await (await studio.send("visitor", `/compare?left=${slug}@2&right=`)).text();
    expect(half).toContain(`value="${slug}@2"`);
    expect(await studio.json("visitor", `/compare?left=${slug}`)).toEqual({
      left: slug,
      right: null,
    });
  });

  it.each([
    ["a name", "Slack Water", "right"],
    ["a revision of nothing", "slack-water@0", "right"],
    ["no number", "slack-water@head", "right"],
    ["an address", "../events", "right"],
  ])("is refused as %s, in its place", async (_, right, place) => {
    const query = new URLSearchParams({ left: slug, right });
    const answer = await studio.send("author", `/compare?${query}`, { accept: "application/json" });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path: place }] });
    const page = await studio.send("author", `/compare?${query}`);
    expect(page.status).toBe(422);
    const text = await page.text();
    expect(text).toContain('href="#field-right"');
    expect(text).toContain(`value="${slug}"`);
  });

  it.each<[Who, number]>([
    ["visitor", 404],
    ["other member", 404],
    ["reviewer", 404],
    ["author", 200],
    ["manager", 200],
  ])("is not there for the %s where it is private: %i", async (who, status) => {
    const hidden = await publish(studio, { shownTo: "private" });
    for (const path of [
      `/compare?left=${hidden}&right=${slug}`,
      `/compare?left=${slug}&right=${hidden}@1`,
    ])
      expect((await studio.send(who, path)).status).toBe(status);
  });

  it("is not there where the revision is not", async () => {
    const answer = await studio.send("author", `/compare?left=${slug}@3&right=${slug}`);
    expect(answer.status).toBe(404);
  });
});

describe("the ways to a comparison", () => {
  it("lead from the history, from a fork and from a conflict", async () => {
    const history = await (await studio.send("author", `/recipes/${slug}/revisions`)).text();
    expect(history).toContain(`/compare?left=${slug}@1&amp;right=${slug}@2`);

    const fork = { name: "Slack Water forked", revision: 1 };
    await studio.send("other member", `/recipes/${slug}/forks`, { json: fork });
    const page = await (await studio.send("visitor", "/recipes/slack-water-forked")).text();
    expect(page).toContain(`/compare?left=${slug}@1&amp;right=slack-water-forked@1`);

    const form = {
      basedOn: "1",
      use: "decorative",
      "cones.low": "6",
      "cones.high": "6",
      "lines.0.part": "base",
      "lines.0.material": "Quartz",
      "lines.0.amount": "100",
    };
    const stale = await studio.send("author", `/recipes/${slug}/revisions`, { form });
    expect(stale.status).toBe(409);
    expect(await stale.text()).toContain(`/compare?left=${slug}@1&amp;right=${slug}@2`);
  });
});
