import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bringEvidence, fireTile, testTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Recipe = { standing: { is: string; for: string; because: string[] } };

describe("an approval for functional ware", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());

  let melts = 0;
  const functional = (more: [string, string][] = []) => {
    melts += 1;
    return publish(studio, {
      different: { use: "functional" },
      lines: [
        ["potash-feldspar", String(40 + melts)],
        ["whiting", "20"],
        ["quartz", "25"],
        ["kaolin", "15"],
        ...more,
      ],
    });
  };
  const approve = (slug: string) =>
    studio.send("reviewer", `/recipes/${slug}/reviews`, {
      json: {
        revision: 1,
        verdict: "approve",
        for: "functional",
        reasons: "Tiles and tests hold.",
      },
    });
  const standing = async (slug: string) =>
    (await studio.json<Recipe>("author", `/recipes/${slug}`)).standing;
  const refusals = async (answer: Response) =>
    ((await answer.json()) as { errors: { says: string }[] }).errors.map(({ says }) => says);

  it("is refused without evidence, given with it, and lapses when a powder changes, with no further call", async () => {
    const slug = await functional();
    const refused = await approve(slug);
    expect(refused.status).toBe(422);
    expect(await refusals(refused)).toHaveLength(4);
    await bringEvidence(studio, slug);
    expect((await approve(slug)).status).toBe(201);
    expect(await standing(slug)).toMatchObject({ is: "approved", for: "functional" });
    expect(await (await studio.send("visitor", `/recipes/${slug}`)).text()).toContain(
      "This studio approved it for functional ware",
    );

    const waiting = await studio.send("manager", "/materials/quartz/analyses", {
      json: {
        inUse: false,
        source: "another lot's analysis, invented",
        measuredOn: "2026-10-19",
        oxides: { SiO2: { percent: "89" }, Al2O3: { percent: "10" } },
        lossOnIgnition: { percent: "1" },
      },
    });
    expect(waiting.status).toBe(201);
    expect((await standing(slug)).is).toBe("approved");
    const { approvalsEnded } = await studio.json<{ approvalsEnded: { slug: string }[] }>(
      "manager",
      "/materials/quartz/analysis-in-use",
    );
    expect(approvalsEnded.map((ended) => ended.slug)).toEqual([slug]);
    const form = await (await studio.send("manager", "/materials/quartz/analysis-in-use")).text();
    expect(form).toContain("would need another look");

    const lot = await studio.send("manager", "/materials/quartz/analyses", {
      json: {
        source: "analysis of the new lot, invented",
        measuredOn: "2026-10-20",
        oxides: { SiO2: { percent: "88" }, Al2O3: { percent: "11" } },
        lossOnIgnition: { percent: "1" },
      },
    });
    expect(lot.status).toBe(201);
    const { is, because } = await standing(slug);
    expect(is).toBe("needs another look");
    expect(because.join(" ")).toMatch(/powders in use now.*Al2O3 in the unity formula from/);
    const { items } = await studio.json<{ items: { slug: string; standing: string }[] }>(
      "visitor",
      "/recipes?standing=needs+another+look",
    );
    expect(items.map((item) => item.slug)).toContain(slug);
    const refusedNow = await approve(slug);
    expect(refusedNow.status).toBe(422);
    expect((await refusals(refusedNow)).join(" ")).toContain("has moved");

    const { items: analyses } = await studio.json<{ items: { id: string; source: string }[] }>(
      "manager",
      "/materials/quartz/analyses",
    );
    const first = analyses.find(({ source }) => source === "Worked out from its formula");
    const back = await studio.send("manager", "/materials/quartz/analysis-in-use", {
      method: "PUT",
      json: { analysis: first?.id, why: "That lot was sent back." },
    });
    expect(back.status).toBe(200);
    expect((await standing(slug)).is).toBe("approved");
  });

  it.each(["acid", "alkali", "dishwasher"])(
    "lapses when its %s test is withdrawn",
    async (kind) => {
      const slug = await functional();
      const { tests } = await bringEvidence(studio, slug);
      await approve(slug);
      const why = "It was made on another tile.";
      const answer = await studio.send("author", `/tests/${tests[kind]}/withdrawal`, {
        method: "PUT",
        json: { why },
      });
      expect(answer.status).toBe(200);
      const { is, because } = await standing(slug);
      expect(is).toBe("needs another look");
      expect(because).toEqual([`No ${kind} test was passed on a tile that counts.`]);
    },
  );

  it("lapses when its tile is withdrawn, and at a tile that crazed", async () => {
    const slug = await functional();
    const { tile } = await bringEvidence(studio, slug);
    await approve(slug);
    const crazed = await fireTile(studio, slug, { defects: ["crazing"] });
    expect((await standing(slug)).because.join(" ")).toContain("shows crazing");
    const withdraw = (id: string) =>
      studio.send("author", `/tiles/${id}/withdrawal`, {
        method: "PUT",
        json: { why: "It was another glaze." },
      });
    expect((await withdraw(crazed)).status).toBe(200);
    expect((await standing(slug)).is).toBe("approved");
    await withdraw(tile);
    expect((await standing(slug)).because.join(" ")).toContain("No tile was fired at cone 6");
  });

  it("lapses for every recipe of the same glaze when a test of one fails", async () => {
    const slug = await functional();
    const { tile } = await bringEvidence(studio, slug);
    await approve(slug);
    const forked = await studio.send("other member", `/recipes/${slug}/forks`, {
      json: { name: "Ebb of the same glaze" },
    });
    const fork = ((await forked.json()) as { slug: string }).slug;
    expect((await standing(fork)).is).toBe("approved");
    const failed = await testTile(studio, slug, { tile, kind: "acid", outcome: "failed" });
    for (const each of [slug, fork]) {
      const { is, because } = await standing(each);
      expect(is).toBe("needs another look");
      expect(because.join(" ")).toContain("A test failed and stands: acid.");
    }
    await studio.send("author", `/tests/${failed}/withdrawal`, {
      method: "PUT",
      json: { why: "Wrong bottle." },
    });
    expect((await standing(fork)).is).toBe("approved");
  });

  it("asks a laboratory's leach report for what can leach", async () => {
    const slug = await functional([["barium-carbonate", "2"]]);
    const { tile } = await bringEvidence(studio, slug);
    const refused = await approve(slug);
    expect(refused.status).toBe(422);
    expect(await refusals(refused)).toEqual([
      "No laboratory's leach report for Ba on a tile that counts.",
    ]);
    await testTile(studio, slug, {
      tile,
      kind: "leach",
      laboratory: "Demo laboratory, invented",
      results: [{ element: "Ba", qualifier: "<", value: "0.1", unit: "mg/l", specimen: "1" }],
    });
    expect((await approve(slug)).status).toBe(201);
  });

  it("lets evidence of a decorative revision count for the same melt as functional", async () => {
    melts += 1;
    const lines: [string, string][] = [
      ["potash-feldspar", String(40 + melts)],
      ["whiting", "20"],
      ["quartz", "25"],
      ["kaolin", "15"],
    ];
    const decorative = await publish(studio, { lines });
    await bringEvidence(studio, decorative);
    const slug = await publish(studio, { lines, different: { use: "functional" } });
    expect((await approve(slug)).status).toBe(201);
    expect((await standing(decorative)).is).toBe("draft");
  });

  it("is not given for tiles of another atmosphere", async () => {
    melts += 1;
    const lines: [string, string][] = [
      ["potash-feldspar", String(40 + melts)],
      ["whiting", "20"],
      ["quartz", "25"],
      ["kaolin", "15"],
    ];
    await bringEvidence(studio, await publish(studio, { lines }));
    const slug = await publish(studio, {
      lines,
      different: { use: "functional", atmosphere: "reduction" },
    });
    expect((await approve(slug)).status).toBe(422);
  });
});
