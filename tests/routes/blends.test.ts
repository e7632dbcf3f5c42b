import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Chemistry } from "../../src/chem/chemistry.ts";
import { publish, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio } from "../studio.ts";

type Line = { material: string; part: string; amount: string };
type Points = { points: { n: number; at: number[]; lines: Line[]; chemistry: Chemistry }[] };
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

const ask = (json: unknown) => studio.send("visitor", "/blends", { json });
const blended = async (json: unknown): Promise<Points["points"]> => {
  const answer = await ask(json);
  if (answer.status !== 200) throw new Error(await answer.text());
  return ((await answer.json()) as Points).points;
};
const faultsOf = async (answer: Response) =>
  ((await answer.json()) as Problem).errors.map(({ path }) => path);

const base = (...lines: [material: string, amount: string][]) => ({
  lines: lines.map(([material, amount]) => ({ material, part: "base", amount })),
});
const glassy = base(["potash-feldspar", "40"], ["whiting", "30"], ["quartz", "30"]);
const stony = base(["potash-feldspar", "20"], ["whiting", "10"], ["kaolin", "70"]);
const ladder = {
  kind: "ladder",
  base: glassy,
  addition: "red-iron-oxide",
  from: "0",
  to: "8",
  steps: 4,
};

describe("POST /blends", () => {
  it.each(everybody)(
    "works a ladder out for the %s, with the chemistry of each point",
    async (who) => {
      const answer = await studio.send(who, "/blends", { json: ladder });
      expect(answer.status).toBe(200);
      const { points } = (await answer.json()) as Points;
      expect(points.map(({ n, at }) => [n, at])).toEqual([
        [1, [0]],
        [2, [2]],
        [3, [4]],
        [4, [6]],
        [5, [8]],
      ]);
      expect(points[0]?.lines).toEqual(glassy.lines);
      expect(points[1]?.lines.at(-1)).toEqual({
        material: "red-iron-oxide",
        part: "addition",
        amount: "2",
      });
      const same = await studio.send(who, "/chemistry", { json: { lines: points[2]?.lines } });
      expect(points[2]?.chemistry).toEqual(await same.json());
    },
  );

  it("spaces a ladder by a factor where that is asked for", async () => {
    const points = await blended({ ...ladder, from: "0.5", spacing: "geometric" });
    expect(points.map(({ at }) => at[0])).toEqual([0.5, 1, 2, 4, 8]);
  });

  it.each<[string, Record<string, unknown>, number]>([
    ["a line of 10", { kind: "line", corners: [glassy, stony], steps: 10 }, 11],
    ["a triaxial of 10", { kind: "triaxial", corners: [glassy, stony, glassy], steps: 10 }, 66],
    [
      "a grid of 4 by 3",
      { kind: "grid", corners: [glassy, stony, stony, glassy], steps: [4, 3] },
      20,
    ],
  ])("gives %s its points, each of a base of 100", async (_, json, count) => {
    const points = await blended(json);
    expect(points).toHaveLength(count);
    for (const { lines, at, chemistry } of points) {
      expect(lines.reduce((sum, { amount }) => sum + Number(amount), 0)).toBeCloseTo(100, 9);
      expect(at.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
      expect(chemistry.batch.base).toBe("100");
    }
  });

  // By hand: a quarter of the way from 40, 30, 30 to 20, 10, 70.
  it("merges what the corners share and brings its corners back as they were", async () => {
    const points = await blended({ kind: "line", corners: [glassy, stony], steps: 4 });
    expect(points[0]?.lines).toEqual(glassy.lines);
    expect(points[4]?.lines).toEqual(stony.lines);
    expect(points[1]?.lines.map(({ material, amount }) => [material, amount])).toEqual([
      ["potash-feldspar", "35"],
      ["whiting", "25"],
      ["quartz", "22.5"],
      ["kaolin", "17.5"],
    ]);
  });

  it("takes powders that are sent along, and corners by a recipe's address", async () => {
    const slug = await publish(studio);
    const silica = {
      lines: [{ material: { name: "Sand", formula: "SiO2" }, part: "base", amount: "7" }],
    };
    const points = await blended({ kind: "line", corners: [{ recipe: slug }, silica], steps: 2 });
    expect(points[0]?.lines).toContainEqual({
      material: "red-iron-oxide",
      part: "addition",
      amount: "2",
    });
    expect(points[1]?.lines).toContainEqual({ material: "Sand", part: "base", amount: "50" });
    expect(points[2]?.lines).toEqual([{ material: "Sand", part: "base", amount: "100" }]);
  });

  it("does not know a private recipe, except to whoever may see it", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const json = { kind: "line", corners: [{ recipe: slug }, glassy], steps: 2 };
    for (const [who, status] of [
      ["visitor", 404],
      ["other member", 404],
      ["reviewer", 404],
      ["author", 200],
      ["manager", 200],
    ] as const)
      expect((await studio.send(who, "/blends", { json })).status).toBe(status);
  });

  // By hand, 600 to 450 parts of solids in equal volumes: 4 : 3 of the dry weight.
  it("mixes slurries by volume, the thicker bringing more", async () => {
    const points = await blended({
      kind: "line",
      corners: [base(["quartz", "1"]), base(["whiting", "1"])],
      steps: 2,
      measure: "slurry volume",
      gravities: ["1.60", "1.45"],
    });
    expect(points[1]).toMatchObject({ at: [0.5, 0.5] });
    expect(points[1]?.lines.map(({ amount }) => amount)).toEqual(["57.142857143", "42.857142857"]);
  });

  const line = { kind: "line", corners: [glassy, stony], steps: 4 };
  const without = (corner: unknown) => ({ ...line, corners: [glassy, corner] });
  it.each<[string, Record<string, unknown>, string]>([
    ["a kind that is none", { ...line, kind: "spiral" }, "kind"],
    ["no kind", { corners: [] }, "kind"],
    ["one corner", { ...line, corners: [glassy] }, "corners"],
    ["three corners of a line", { ...line, corners: [glassy, stony, glassy] }, "corners"],
    ["no steps", { ...line, steps: undefined }, "steps"],
    ["0 steps", { ...line, steps: 0 }, "steps"],
    ["half a step", { ...line, steps: "1.5" }, "steps"],
    ["500 steps", { ...line, steps: 500 }, "steps"],
    [
      "496 points and more",
      { ...line, kind: "triaxial", corners: [glassy, stony, stony], steps: 31 },
      "steps",
    ],
    [
      "a grid of 30 by 30",
      { kind: "grid", corners: [glassy, stony, stony, stony], steps: [30, 30] },
      "steps",
    ],
    ["a corner without lines", without({}), "corners.1.lines"],
    ["a corner of nothing", without(base(["quartz", "0"])), "corners.1.lines"],
    ["an amount below 0", without(base(["quartz", "-1"])), "corners.1.lines.0.amount"],
    ["a powder that is not here", without(base(["moon-dust", "1"])), "corners.1.lines.0.material"],
    [
      "a base powder without an analysis",
      without(base(["loft-stain-coral", "1"])),
      "corners.1.lines.0.material",
    ],
    ["a geometric ladder from 0", { ...ladder, spacing: "geometric" }, "from"],
    ["a ladder to nowhere", { ...ladder, to: undefined }, "to"],
    ["a ladder of what is not here", { ...ladder, addition: "moon-dust" }, "addition"],
    ["a ladder by volume", { ...ladder, measure: "slurry volume" }, "measure"],
    [
      "volumes without gravities",
      { ...line, measure: "slurry volume", gravities: ["1.4"] },
      "gravities.1",
    ],
    [
      "the gravity of water",
      { ...line, measure: "slurry volume", gravities: ["1.4", "1"] },
      "gravities.1",
    ],
    ["gravities without volumes", { ...line, gravities: ["1.4", "1.4"] }, "gravities"],
  ])("refuses %s with its place", async (_, json, path) => {
    const answer = await ask(json);
    expect(answer.status).toBe(422);
    expect(await faultsOf(answer)).toEqual([path]);
  });
});

describe("the page of it", () => {
  const form = {
    kind: "grid",
    "corners.0.text": "Quartz 60\nWhiting 40",
    "corners.1.text": "Kaolin 100",
    "corners.2.text": "Potash feldspar 100",
    "corners.3.text": "Whiting 100",
    steps: "2 x 1",
  };

  it.each(["ladder", "line", "triaxial", "grid"])("has a form for a %s", async (kind) => {
    const html = await (await studio.send("visitor", `/blends?kind=${kind}`)).text();
    expect(html).toContain(`name="kind" value="${kind}"`);
    expect(html).not.toContain("Put this trial on record");
  });

  it("works out pasted lines, and keeps them in the form", async () => {
    const shown = await studio.send("visitor", "/blends", { form });
    expect(shown.status).toBe(200);
    const html = await shown.text();
    expect(html).toContain("6 points");
    expect(html).toContain("A 50, B 50");
    expect(html).toContain("Quartz 60\nWhiting 40");
  });

  it("shows what is wrong beside the corner that it is in", async () => {
    const shown = await studio.send("author", "/blends", {
      form: { ...form, "corners.2.text": "Moon dust 100", "corners.3.text": "" },
    });
    expect(shown.status).toBe(422);
    const html = await shown.text();
    expect(html).toContain("There is no “Moon dust” on the shelf.");
    expect(html).toContain('id="field-corners.2.text-fault"');
    expect(html).toContain('id="field-corners.3.text-fault"');
    expect(html).toContain('href="#field-corners.2.text"');
    expect(html).toContain("Put this trial on record");
  });
});
