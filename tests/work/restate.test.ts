import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import type { Oxide } from "../../src/chem/oxides.ts";
import {
  countedOxides,
  type Moles,
  missOf,
  type Restatable,
  unityOfMix,
} from "../../src/chem/restating.ts";
import { type Restated, type RestateInput, restate } from "../../src/work/restate.ts";
import { powders, restatings, smallestSum } from "./shelves.ts";

const run = { seconds: 20, progress: () => {} };
const solve = (input: RestateInput) => restate(input, run);
const ask = (wanted: Moles, shelf: Restatable[], more: Partial<RestateInput> = {}) =>
  solve({ wanted, counted: countedOxides("lines", wanted), bounds: {}, shelf, ...more });
const named = (...names: string[]) => powders.filter(({ name }) => names.includes(name));

function mixOf(restated: Restated) {
  if (restated.kind !== "mix") throw new Error(JSON.stringify(restated));
  return restated;
}

/** What the printed amounts come to, by another way than the answer's. */
function comesTo(restated: Restated, shelf: readonly Restatable[]): Moles {
  const { base } = mixOf(restated);
  expect(Decimal.sum(...base.map(({ amount }) => amount)).toFixed()).toBe("100");
  const unity = unityOfMix(
    base.map(({ key, amount }) => {
      expect(Number(amount)).toBeGreaterThan(0);
      const powder = shelf.find((each) => each.key === key);
      return { moles: powder?.moles ?? {}, amount: Number(amount) };
    }),
  );
  if (!unity) throw new Error("no flux");
  return unity;
}

describe("a glaze restated", () => {
  it("is the same from a shelf that holds its materials, 500 times", async () => {
    for (const { wanted, shelf } of restatings(11, 500, "its own and others")) {
      const answer = mixOf(await ask(wanted, shelf, { others: 0 }));
      const unity = comesTo(answer, shelf);
      for (const oxide of countedOxides("lines", wanted))
        expect(missOf(wanted[oxide] ?? 0, unity[oxide] ?? 0)).toBeLessThan(1e-6);
      expect(answer).toMatchObject({ status: "exact", misses: [] });
    }
  });

  it("is as near as another solver finds it where it cannot be the same, 200 times", async () => {
    let nearest = 0;
    for (const restating of restatings(23, 230, "others only")) {
      const from = nearest % 2 === 0 ? "lines" : "unity";
      const { wanted, shelf } = restating;
      const counted = countedOxides(from, wanted);
      const answer = mixOf(await solve({ wanted, counted, bounds: {}, shelf, others: 0 }));
      const sum = smallestSum(restating, from) ?? Number.NaN;
      expect(Math.abs(answer.sum - sum)).toBeLessThanOrEqual(1e-6 * Math.max(1, sum));
      comesTo(answer, shelf);
      if (answer.status === "nearest") nearest++;
      for (const { because } of answer.misses) expect(because).toMatch(/\.$/);
    }
    expect(nearest).toBeGreaterThanOrEqual(200);
  });

  it("gives equal answers to equal shelves, in whatever order they come", async () => {
    const [one] = restatings(5, 1, "others only");
    if (!one) throw new Error("no glaze");
    const first = await ask(one.wanted, one.shelf);
    expect(await ask(one.wanted, [...one.shelf].reverse())).toEqual(first);
  });

  // H. A. Seger's cone 4, K2O 0.3 CaO 0.7 Al2O3 0.5 SiO2 4 (Tonindustrie-Zeitung 1886, p. 135):
  // feldspar 83.55, CaCO3 35, SiO2 54, kaolin 25.90.
  it("finds the batch of Seger's cone 4", async () => {
    const wanted = { K2O: 0.3, CaO: 0.7, Al2O3: 0.5, SiO2: 4 };
    const answer = mixOf(
      await ask(wanted, named("potash feldspar", "chalk", "quartz", "kaolin", "zinc oxide")),
    );
    const total = 83.55 + 35 + 54 + 25.9;
    const printed = { "potash feldspar": 83.55, chalk: 35, quartz: 54, kaolin: 25.9 };
    expect(answer.base.map(({ key }) => key).sort()).toEqual(Object.keys(printed).sort());
    for (const { key, amount } of answer.base)
      expect(Number(amount)).toBeCloseTo((100 * printed[key as keyof typeof printed]) / total, 1);
  });

  // By hand: with x of the powder for one of lime, silica is (0.1 − x)/0.1 under and titania x/0.1
  // over. From 0 to 0.1 the sum is 1 all along; the worse of the two is least in the middle.
  it("takes the smaller worst miss of mixes whose misses add up to the same", async () => {
    const mixed = { key: "mixed", name: "Mixed", moles: { SiO2: 1, TiO2: 1 }, loss: 0 };
    const answer = mixOf(await ask({ CaO: 1, SiO2: 0.1 }, [...named("chalk"), mixed]));
    expect(answer.sum).toBeCloseTo(1, 6);
    expect(answer.worst).toBeCloseTo(0.5, 6);
    expect(answer.unity.SiO2).toBeCloseTo(0.05, 6);
  });

  // Lime from wollastonite loses nothing; from chalk 44 %: of two exact ways the lighter is taken.
  it("takes the lighter of two batches that are both the same", async () => {
    const wanted = { CaO: 1, SiO2: 2 };
    const answer = mixOf(await ask(wanted, named("chalk", "quartz", "wollastonite")));
    expect(answer.base.map(({ key }) => key)).toEqual(["quartz", "wollastonite"]);
    expect(answer.others.map(({ base }) => base.map(({ key }) => key))).toEqual([
      ["chalk", "quartz"],
    ]);
  });
});

describe("conditions", () => {
  const wanted = { K2O: 0.3, CaO: 0.7, Al2O3: 0.5, SiO2: 4 };
  const four = named("potash feldspar", "chalk", "quartz", "kaolin");

  it("keeps a bound, and says where it stands in the way", async () => {
    const answer = mixOf(await ask(wanted, four, { bounds: { kaolin: { least: 20, most: 25 } } }));
    const kaolin = answer.base.find(({ key }) => key === "kaolin");
    expect(Number(kaolin?.amount)).toBeGreaterThanOrEqual(20 - 1e-5);
    expect(answer.status).toBe("nearest");
    expect(answer.misses.map(({ because }) => because)).toContain(
      "The bound on kaolin stands in the way.",
    );
  });

  it("uses no more materials than it may, and says where that stands in the way", async () => {
    const answer = mixOf(await ask(wanted, four, { most: 3 }));
    expect(answer.base.length).toBeLessThanOrEqual(3);
    expect(answer.misses.some(({ because }) => /At most 3 materials/.test(because))).toBe(true);
  });

  it("finds the best of few, as trying every choice does", async () => {
    for (const restating of restatings(41, 12, "others only")) {
      const { wanted: want } = restating;
      const shelf = restating.shelf.slice(0, 9);
      const trials = pairs(shelf).map((pair) =>
        smallestSum({ wanted: want, shelf: pair }, "lines"),
      );
      const best = Math.min(...trials.map((sum) => sum ?? Infinity));
      if (best === Infinity) continue;
      const answer = mixOf(await ask(want, shelf, { most: 2 }));
      expect(answer.base.length).toBeLessThanOrEqual(2);
      expect(answer.stopped).toBeUndefined();
      expect(Math.abs(answer.sum - best)).toBeLessThanOrEqual(1e-6 * Math.max(1, best));
    }
  });

  it("says that no mix meets bounds that cannot be met", async () => {
    const bounds = { kaolin: { least: 60 }, quartz: { least: 60 } };
    const answer = await ask(wanted, four, { bounds });
    expect(answer).toEqual({
      kind: "none",
      because: "No mix of these materials meets the bounds on kaolin, quartz.",
    });
  });

  it("holds the loss down where asked", async () => {
    const answer = mixOf(await ask(wanted, four, { mostLoss: 5 }));
    const lost = answer.base.reduce((sum, { key, amount }) => {
      const loss = four.find((each) => each.key === key)?.loss ?? 0;
      return sum + (Number(amount) * loss) / 100;
    }, 0);
    expect(lost).toBeLessThanOrEqual(5 + 1e-4);
    expect(answer.misses.map(({ because }) => because).join(" ")).toContain("limit on the loss");
  });

  it("has words for an empty shelf, none to use, and a shelf without a flux", async () => {
    expect(await ask(wanted, [])).toEqual({ kind: "none", because: "The shelf is empty." });
    expect(await ask(wanted, four, { most: 0 })).toMatchObject({ kind: "none" });
    const clay = await ask(wanted, named("kaolin", "quartz"));
    expect(clay).toMatchObject({ kind: "none", because: expect.stringMatching(/brings a flux/) });
  });

  it("names an oxide that nobody brings, and what a lone bringer brings with it", async () => {
    const cobalt: Partial<Record<Oxide, number>> = { ...wanted, CoO: 0.02 };
    const answer = mixOf(await ask(cobalt, four));
    expect(answer.misses).toContainEqual(
      expect.objectContaining({ oxide: "CoO", because: "No material of the shelf brings CoO." }),
    );
    const noQuartz = mixOf(await ask({ K2O: 0.5, CaO: 0.5, Al2O3: 0.1, SiO2: 0.8 }, four));
    expect(noQuartz.misses.find(({ oxide }) => oxide === "K2O")?.because).toMatch(
      /Only potash feldspar brings it, and with it comes Al2O3/,
    );
  });
});

const pairs = <T>(of: readonly T[]): T[][] =>
  of.flatMap((one, at) => of.slice(at + 1).map((other) => [one, other]));
