import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mostWaiting, solver } from "../../src/work/solver.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Row = { now: { value: number; plusMinus: number }; wanted: number; within: number };
type Found = {
  status: "reached" | "nearest" | "none";
  because?: string;
  lines: { material: string; part: string; amount: string }[];
  unity: Record<string, { value: number; plusMinus: number }>;
  misses: { oxide: string; because: string }[];
  withinDoubt: boolean;
  changes: { material: string; is: string; says: string }[];
  differences: { of: string; says: string }[];
  figures: { of: string; before: number; after: number }[];
  findings: { come: { rule: string }[]; go: { rule: string }[] };
};
type Moved = {
  unity: Record<string, Row>;
  others: string[];
  shelf: string[];
  found: Found | null;
  undo: string | null;
  nearest: { to: string; items: Neighbour[] };
};
type Neighbour = {
  slug: string;
  distance: number;
  differences: { oxide: string; by: number }[];
  says: string;
};

let studio: TestStudio;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  slug = await publish(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await solver.end();
  await studio.close();
});

const at = (query: string) => `/recipes/${slug}/moves${query}`;
const moved = (query: string, who: Who = "visitor") => studio.json<Moved>(who, at(query));
async function found(query: string): Promise<Found> {
  const { found } = await moved(query);
  if (!found) throw new Error(`${query} moves nothing`);
  return found;
}
const grams = ({ lines }: Found) =>
  Object.fromEntries(lines.map(({ material, amount }) => [material, Number(amount)]));

// Moles in the base of slack water by its formulas and the IUPAC weights: potash feldspar 556.65,
// calcium carbonate 100.086, quartz 60.083, kaolin 258.157 g/mol.
const mole = {
  feldspar: 40 / 556.65,
  whiting: 20 / 100.086,
  quartz: 25 / 60.083,
  kaolin: 15 / 258.157,
};
const flux = mole.feldspar + mole.whiting;
const silica = (6 * mole.feldspar + 2 * mole.kaolin + mole.quartz) / flux;

describe("an oxide that is moved", () => {
  it("is reached by the powder that brings nothing else", async () => {
    const answer = await found("?set=SiO2:4.5");
    expect(answer).toMatchObject({ status: "reached", misses: [], withinDoubt: false });
    expect(answer.unity.SiO2?.value).toBeCloseTo(4.5, 6);
    const quartz = (4.5 * flux - 6 * mole.feldspar - 2 * mole.kaolin) * 60.083;
    const base = 75 + quartz;
    const weighed = grams(answer);
    expect(weighed.quartz).toBeCloseTo((100 * quartz) / base, 2);
    expect(weighed["potash-feldspar"]).toBeCloseTo((100 * 40) / base, 2);
    expect(weighed.whiting).toBeCloseTo((100 * 20) / base, 2);
    expect(weighed.kaolin).toBeCloseTo((100 * 15) / base, 2);
    expect(weighed["red-iron-oxide"]).toBe(2);
  });

  it("leaves the others where they were, each told with the ± of its difference", async () => {
    const { unity, found } = await moved("?set=SiO2:4.5");
    expect(unity.SiO2?.now.value).toBeCloseTo(silica, 3);
    expect(unity.SiO2?.now.plusMinus).toBeGreaterThan(0);
    for (const oxide of ["K2O", "CaO", "Al2O3"])
      expect(found?.unity[oxide]?.value).toBeCloseTo(unity[oxide]?.now.value ?? 0, 6);
    const says = Object.fromEntries(found?.differences.map((each) => [each.of, each.says]) ?? []);
    expect(says.SiO2).toMatch(/^differs by \+/);
    expect(says.CaO).toBe("cannot be told apart");
    expect(found?.changes.map(({ material, is }) => [material, is])).toEqual([
      ["potash-feldspar", "changed"],
      ["whiting", "changed"],
      ["quartz", "changed"],
      ["kaolin", "changed"],
      ["red-iron-oxide", "same"],
    ]);
    const ratio = found?.figures.find(({ of }) => of === "silica-to-alumina");
    expect((ratio?.after ?? 0) / (ratio?.before ?? 1)).toBeCloseTo(4.5 / silica, 2);
  });

  it("is the same within what the analyses can tell, by another quartz", async () => {
    const json = { name: "Flint", kind: "mineral", formula: "SiO2" };
    await studio.send("manager", "/materials", { json });
    const powders = ["potash-feldspar", "whiting", "kaolin", "flint"];
    const shelf = powders.map((powder) => `&shelf=${powder}`).join("");
    const of = (by: number) => found(`?set=SiO2:${(silica + by).toFixed(4)}${shelf}`);
    expect(await of(0.001)).toMatchObject({ status: "reached", withinDoubt: true });
    expect(await of(0.1)).toMatchObject({ status: "reached", withinDoubt: false });
  });

  it("tells what the rules find that they did not before", async () => {
    const { findings } = await found("?set=BaO:0.2&allSold=on");
    expect(findings.come.map(({ rule }) => rule)).not.toEqual([]);
    expect((await found("?set=SiO2:4.5")).findings.come).toEqual([]);
  });

  it("moves with the other fluxes, which are scaled to make room", async () => {
    const { unity, found } = await moved("?set=CaO:0.8");
    expect(unity.K2O?.wanted).toBeCloseTo(0.2, 9);
    expect(found?.status).toBe("reached");
    expect(found?.unity.CaO?.value).toBeCloseTo(0.8, 6);
    expect(found?.unity.K2O?.value).toBeCloseTo(0.2, 6);
    // Feldspar to whiting as 0.2 to 0.8.
    const weighed = grams(found as Found);
    expect((weighed["potash-feldspar"] ?? 0) / (weighed.whiting ?? 1)).toBeCloseTo(
      (0.2 * 556.65) / (0.8 * 100.086),
      3,
    );
  });

  it("comes as near as it can where no powder brings it, and says so", async () => {
    const answer = await found("?set=B2O3:0.2");
    expect(answer.status).toBe("nearest");
    expect(answer.misses).toContainEqual(
      expect.objectContaining({ oxide: "B2O3", because: "No material of the shelf brings B2O3." }),
    );
  });

  it("comes before what is neither moved nor held", async () => {
    // With clay for the only alumina, silica has to come along.
    const powders = "&shelf=potash-feldspar&shelf=whiting&shelf=kaolin";
    const { unity, found } = await moved(`?set=Al2O3:1.5${powders}`);
    expect(found?.status).toBe("reached");
    expect(found?.unity.Al2O3?.value).toBeCloseTo(1.5, 6);
    expect(found?.unity.SiO2?.value).not.toBeCloseTo(unity.SiO2?.wanted ?? 0, 1);
  });
});

describe("an oxide that is held", () => {
  it("stays, while what is free gives way", async () => {
    const powders = "&shelf=potash-feldspar&shelf=whiting&shelf=kaolin";
    const hold = "&hold=K2O&hold=CaO&hold=SiO2";
    const { unity, found } = await moved(`?set=Al2O3:0.9${hold}${powders}`);
    for (const oxide of ["K2O", "CaO", "SiO2"]) {
      const { wanted, within } = unity[oxide] as Row;
      expect(within).toBeCloseTo(Math.max(0.01 * wanted, 0.005), 9);
      if (found?.status === "none") continue;
      expect(Math.abs((found?.unity[oxide]?.value ?? 0) - wanted)).toBeLessThanOrEqual(
        within + 1e-6,
      );
    }
    const free = (await moved("?set=Al2O3:0.6&hold=K2O&hold=CaO")).found as Found;
    expect(free.unity.Al2O3?.value).toBeCloseTo(0.6, 6);
    expect(free.unity.K2O?.value).toBeCloseTo(unity.K2O?.wanted ?? 0, 2);
  });

  it("is named, with the reason, where it cannot stay", async () => {
    const shelf = "&shelf=potash-feldspar&shelf=whiting&shelf=quartz";
    const answer = await found(`?set=SiO2:4.5&hold=K2O&hold=Al2O3${shelf}`);
    expect(answer.status).toBe("none");
    expect(answer.because).toMatch(/Al2O3 cannot be held at 0\.\d+: .*Potash feldspar/);
    const without = await found("?set=SiO2:4.5&hold=K2O&shelf=whiting&shelf=quartz");
    expect(without.because).toMatch(
      /K2O cannot be held at 0\.\d+.*No material of the shelf brings/,
    );
  });

  it("stays at what it was moved to before", async () => {
    const answer = await found("?set=SiO2:4.2&set=Al2O3:0.7&hold=SiO2");
    expect(Math.abs((answer.unity.SiO2?.value ?? 0) - 4.2)).toBeLessThanOrEqual(0.042 + 1e-6);
  });
});

describe("an address of moves", () => {
  it("shows the formula, and solves nothing, without a move", async () => {
    const { found, undo, nearest, shelf } = await moved("");
    expect({ found, undo, to: nearest.to }).toEqual({ found: null, undo: null, to: "as it is" });
    expect(shelf.sort()).toEqual(["kaolin", "potash-feldspar", "quartz", "whiting"]);
  });

  it("is undone by the one without its last move", async () => {
    const { undo } = await moved("?set=SiO2:4.5&set=Al2O3:0.6&hold=CaO");
    expect(undo).toBe(at("?set=SiO2%3A4.5&hold=CaO"));
    const html = await (await studio.send("visitor", at("?set=SiO2:4.5"))).text();
    expect(html).toContain(`href="${at("")}"`);
  });

  it("is what a typed box comes to, so that it can be sent on", async () => {
    const answer = await studio.send("visitor", at("?set=Al2O3:0.6&to.SiO2=4.5&to.CaO=&hold=K2O"));
    expect(answer.status).toBe(302);
    expect(answer.headers.get("Location")).toBe(at("?set=Al2O3%3A0.6&set=SiO2%3A4.5&hold=K2O"));
    const { found } = await moved("?to.SiO2=4.5");
    expect(found?.unity.SiO2?.value).toBeCloseTo(4.5, 6);
  });

  it("offers presses of a step from where an oxide is wanted now", async () => {
    const html = await (await studio.send("visitor", at("?set=SiO2:4.5"))).text();
    for (const to of ["SiO2:4.3", "SiO2:4.7"]) expect(html).toContain(`name="set" value="${to}"`);
    const hidden = '<input type="hidden" name="set" value="SiO2:4.5"/>';
    expect(html.indexOf(hidden)).toBeGreaterThan(0);
    expect(html.indexOf(hidden)).toBeLessThan(html.indexOf('value="SiO2:4.3"'));
  });

  it("may name an earlier revision", async () => {
    const two = await publish(studio);
    const more = revision({}, [
      ["potash-feldspar", "50"],
      ["whiting", "30"],
      ["quartz", "20"],
    ]);
    await studio.send("author", `/recipes/${two}/revisions`, { json: { ...more, basedOn: 1 } });
    const of = (query: string) => studio.json<Moved>("visitor", `/recipes/${two}/moves${query}`);
    expect((await of("?revision=1")).unity.SiO2?.now.value).toBeCloseTo(silica, 3);
    expect((await of("")).unity.SiO2?.now.value).not.toBeCloseTo(silica, 1);
    expect((await studio.send("visitor", `/recipes/${two}/moves?revision=3`)).status).toBe(404);
  });

  it("leads people of the studio on to a recipe of its lines", async () => {
    const html = async (who: Who) => (await studio.send(who, at("?set=SiO2:4.5"))).text();
    expect(await html("author")).toContain('name="revision.lines.0.material"');
    expect(await html("author")).toContain("a new tile");
    expect(await html("visitor")).not.toContain('name="revision.lines.0.material"');
    const recipe = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(recipe).toContain(`href="/recipes/${slug}/moves"`);
    expect(recipe).toContain(`href="/recipes/${slug}/nearest"`);
  });

  it.each<[string, string, string, RegExp]>([
    ["a flux whose others are all held", "?set=CaO:0.8&hold=K2O", "set.0", /Let go of one/],
    ["more than the fluxes can be", "?set=SiO2:4&set=CaO:1.5", "set.1", /1 at the most/],
    ["what is no oxide", "?set=Xx2O:1", "set.0", /no oxide/],
    ["a hold on what is none", "?hold=fe2o3", "hold.0", /no oxide/],
    ["what is no number", "?set=SiO2:lots", "set.0", /not a number/],
    ["less than nothing", "?set=SiO2:-1", "set.0", /from 0 to 20/],
    ["a powder that nobody knows", "?set=SiO2:4&shelf=unobtainium", "shelf.0", /unobtainium/],
    ["too many moves", `?${"set=SiO2:4&".repeat(41)}`, "set", /At most 40/],
    ["a typed box of a flux", "?to.CaO=2", "to.CaO", /at the most/],
  ])("is refused for %s in words", async (_, query, path, says) => {
    const answer = await studio.send("visitor", at(query), { accept: "application/json" });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors).toContainEqual({ path, says: expect.stringMatching(says) });
  });

  it("comes back with what was typed beside what is wrong with it", async () => {
    const answer = await studio.send("visitor", at("?set=SiO2:4.5&to.CaO=lots&hold=K2O"));
    expect(answer.status).toBe(422);
    const html = await answer.text();
    expect(html).toMatch(/name="to.CaO" value="lots"/);
    expect(html).toMatch(/value="K2O" checked/);
    expect(html).toContain('href="#field-to.CaO"');
    expect(html).toContain('name="set" value="SiO2:4.5"');
  });

  it("sends who comes when too many wait away for a while", async () => {
    const ask = (who: Who) => studio.send(who, at("?set=SiO2:4.5"));
    const all = await Promise.all(Array.from({ length: mostWaiting + 3 }, () => ask("author")));
    const busy = all.filter(({ status }) => status === 503);
    for (const answer of busy) {
      expect(Number(answer.headers.get("Retry-After"))).toBeGreaterThan(0);
      expect(await answer.text()).toContain("Others are before you");
    }
    expect(all.filter(({ status }) => status === 200).length + busy.length).toBe(all.length);
  });
});

describe("the nearest in chemistry", () => {
  const nearest = (who: Who, of: string, query = "") =>
    studio.json<{ items: Neighbour[] }>(who, `/recipes/${of}/nearest${query}`);

  it("are told by how far they are, and in what", async () => {
    const lines: Parameters<typeof publish>[1] = {
      lines: [
        ["potash-feldspar", "40"],
        ["whiting", "20"],
        ["quartz", "40"],
        ["kaolin", "15"],
        ["red-iron-oxide", "2", "addition"],
      ],
    };
    const other = await publish(studio, lines);
    const { items } = await nearest("visitor", slug);
    const found = items.find((each) => each.slug === other);
    const more = 15 / 60.083 / flux;
    expect(found?.distance).toBeCloseTo(more, 3);
    expect(found?.differences).toEqual([{ oxide: "SiO2", by: expect.closeTo(more, 3) }]);
    expect(found?.says).toBe("Not the same glaze.");
    expect(items.map(({ distance }) => distance)).toEqual(
      items.map(({ distance }) => distance).sort((a, b) => a - b),
    );
    const towards = await moved(`?set=SiO2:${(silica + more).toFixed(3)}`);
    expect(towards.nearest.to).toBe("moved");
    expect(towards.nearest.items[0]).toMatchObject({ slug: other });
    expect(towards.nearest.items[0]?.distance).toBeLessThan(0.01);
    const html = await (await studio.send("visitor", `/recipes/${slug}/nearest`)).text();
    expect(html).toContain("Not the same glaze.");
    expect(html).toContain(`/compare?left=${slug}@1&amp;right=${other}@1`);
  });

  it("are no recipe that is private to another, taken back, or itself", async () => {
    const hidden = await publish(studio, { shownTo: "private" });
    const back = await publish(studio);
    await studio.send("author", `/recipes/${back}/withdrawal`, {
      method: "PUT",
      json: { why: "It runs." },
    });
    for (const who of ["visitor", "other member", "reviewer", "author", "manager"] as const) {
      const slugs = (await nearest(who, slug, "?limit=50")).items.map((each) => each.slug);
      expect(slugs.includes(hidden)).toBe(who === "author" || who === "manager");
      expect(slugs).not.toContain(back);
      expect(slugs).not.toContain(slug);
      const beside = (await moved("", who)).nearest.items.map((each) => each.slug);
      expect(beside.includes(hidden)).toBe(who === "author" || who === "manager");
      const status = who === "author" || who === "manager" ? 200 : 404;
      for (const page of ["moves", "moves?set=SiO2:4", "nearest"])
        expect((await studio.send(who, `/recipes/${hidden}/${page}`)).status).toBe(status);
    }
  });

  it("are as many as asked, up to 50", async () => {
    expect((await nearest("visitor", slug, "?limit=1")).items).toHaveLength(1);
    for (const limit of ["0", "51", "some"]) {
      const answer = await studio.send("visitor", `/recipes/${slug}/nearest?limit=${limit}`);
      expect(answer.status).toBe(422);
    }
    expect((await studio.send("visitor", `/recipes/${slug}/nearest?revision=9`)).status).toBe(404);
  });
});
