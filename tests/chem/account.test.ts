import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { accountOf, type Brought } from "../../src/chem/account.ts";
import { type ChemistryRequest, workOut } from "../../src/chem/chemistry.ts";
import { analysed, line } from "../reference/shelf.ts";
import { ideal, powder, seger } from "./account-powders.ts";
import { requestArbitrary } from "./generated-recipes.ts";
import { quantitiesOf } from "./quantities.ts";

const amounts = (brought: Brought | undefined) =>
  brought?.lines.map(({ line, amount }) => [line, Number(amount.toFixed(4))]);

const shares = (brought: Brought | undefined) =>
  brought?.lines.map(({ line, share }) => [line, Number(share.toFixed(4))]);

describe("which line brings how much", () => {
  // H. A. Seger, cone 4, Tonindustrie-Zeitung 1886, p. 135: the batch above. By hand with the molar
  // masses of IUPAC 2021: feldspar 94.195 + 101.961 + 6 × 60.083 = 556.654, CaCO3 100.086, SiO2
  // 60.083, kaolin 101.961 + 2 × 60.083 + 2 × 18.015 = 258.157.
  //   feldspar 83.55/556.654 = 0.15009 mol: 0.15009 K2O, 0.15009 Al2O3, 6 × 0.15009 = 0.90056 SiO2
  //   whiting 35/100.086 = 0.34970 CaO; quartz 54/60.083 = 0.89876 SiO2
  //   kaolin 25.90/258.157 = 0.10033 mol: 0.10033 Al2O3, 0.20065 SiO2
  // SiO2 0.90056 + 0.89876 + 0.20065 = 1.99997 over fluxes 0.15009 + 0.34970 = 0.49979 is 4.0016.
  it("is what the molar masses say for Seger's cone 4", () => {
    const account = accountOf(seger, "unity.SiO2");
    expect(account?.quantity.value).toBeCloseTo(4.0016, 4);
    const [silica, fluxes] = account?.brings ?? [];
    expect(amounts(silica)).toEqual([
      [0, 0.9006],
      [2, 0.8988],
      [3, 0.2007],
    ]);
    // 0.90056/1.99997, 0.89876/1.99997, 0.20065/1.99997; 0.15009/0.49979, 0.34970/0.49979.
    expect(shares(silica)).toEqual([
      [0, 0.4503],
      [2, 0.4494],
      [3, 0.1003],
    ]);
    expect([fluxes?.of, fluxes?.side, fluxes?.measure]).toEqual(["fluxes", "divided by", "moles"]);
    expect(shares(fluxes)).toEqual([
      [0, 0.3003],
      [1, 0.6997],
    ]);
    expect(account?.doubts).toEqual([]);
  });

  it("is told for both sides of a ratio", () => {
    // Al2O3: 0.15009 and 0.10033 of 0.25042.
    const [silica, alumina] = accountOf(seger, "silica-to-alumina")?.brings ?? [];
    expect(silica?.lines.map((each) => each.line)).toEqual([0, 2, 3]);
    expect(shares(alumina)).toEqual([
      [0, 0.5994],
      [3, 0.4006],
    ]);
  });

  it("is told of the loss line by line", () => {
    // 35 × 44.009/100.086 = 15.390 parts of CO2, 25.90 × 36.030/258.157 = 3.615 of H2O, 19.005 in all.
    const [loss] = accountOf(seger, "loss")?.brings ?? [];
    expect(loss?.lines.map(({ line, amount }) => [line, amount.toFixed(3)])).toEqual([
      [1, "15.390"],
      [3, "3.615"],
    ]);
    expect(shares(loss)).toEqual([
      [1, 0.8098],
      [3, 0.1902],
    ]);
  });

  it("is less than nothing where oxygen is taken up", () => {
    // Fe3O4 takes up 3.455 %: 3 × 159.687/(2 × 231.531) is 1.03456.
    const lines = [...seger.lines, line("Magnetite", 10, ideal("Fe3O4"), "addition")];
    const [loss] = accountOf({ lines }, "loss")?.brings ?? [];
    const iron = loss?.lines.find((each) => each.line === 4);
    expect(iron?.amount).toBeCloseTo(-0.3456, 3);
    expect(iron?.share).toBeLessThan(0);
  });

  it("adds up, each side to the number's own part, in any recipe", () => {
    fc.assert(
      fc.property(requestArbitrary, (request) => {
        for (const { account, value } of accountsOf(request)) {
          const [above, below] = account.brings;
          if (!above || !below) continue;
          for (const { lines } of [above, below]) {
            const sum = lines.reduce((all, { share }) => all + share, 0);
            if (lines.length > 0) expect(sum).toBeCloseTo(1, 6);
          }
          const scale = /^(weight|mole|loss|unaccounted)/.test(account.name) ? 100 : 1;
          const ratio = (scale * total(above)) / total(below);
          expect(Math.abs(ratio - value)).toBeLessThanOrEqual(1e-9 * (Math.abs(value) + 1));
        }
      }),
      { numRuns: 30 },
    );
  });
});

describe("what a ± is of", () => {
  it("is shared out as the law of propagation does", () => {
    // JCGM 100:2008, 5.1.2, by hand: w = 100 s/(s + t) has ∂w/∂s = 0.4 and ∂w/∂t = −0.6 at s = 60,
    // t = 40, so with ± 1 on both the shares are 0.16 and 0.36 of 0.52.
    const lines = [line("A clay", 100, powder({ SiO2: [60, 1], Al2O3: [40, 1] }))];
    const doubts = accountOf({ lines }, "weight.SiO2")?.doubts;
    expect(doubts?.map(({ of }) => of)).toEqual(["Al2O3", "SiO2"]);
    expect(doubts?.map(({ plusMinus }) => plusMinus.toFixed(6))).toEqual(["0.600000", "0.400000"]);
    expect(doubts?.[0]?.share).toBeCloseTo(0.36 / 0.52, 9);
  });

  it("adds up in squares to the ± that workOut gives, in any recipe", () => {
    let compared = 0;
    fc.assert(
      fc.property(requestArbitrary, (request) => {
        for (const { account, value, plusMinus } of accountsOf(request)) {
          const root = Math.hypot(...account.doubts.map((doubt) => doubt.plusMinus));
          const allowed = 1e-6 * plusMinus + 1e-11 * Math.abs(value);
          expect(Math.abs(root - plusMinus), account.name).toBeLessThanOrEqual(allowed);
          if (account.doubts.length === 0) continue;
          compared += 1;
          const sum = account.doubts.reduce((all, { share }) => all + share, 0);
          expect(sum).toBeCloseTo(1, 9);
          const inOrder = account.doubts.map(({ share }) => share);
          expect(inOrder).toEqual([...inOrder].sort((a, b) => b - a));
        }
      }),
      { numRuns: 80 },
    );
    expect(compared).toBeGreaterThan(1000);
  });

  it("counts one analysis in two lines as one, and each weighing by itself", () => {
    const lines = [
      line("Feldspar", 60, analysed({ K2O: 12, Al2O3: 18, SiO2: 66 })),
      line("Whiting", 20, ideal("CaCO3")),
      line("Whiting", 5, ideal("CaCO3"), "addition"),
    ];
    const weighed = { grams: new Decimal(500), scaleGrams: new Decimal(1) };
    const unweighed = accountOf({ lines }, "unity.SiO2")?.doubts;
    const doubts = accountOf({ lines, ...weighed }, "unity.SiO2")?.doubts;
    const named = (of: typeof doubts) => of?.map((doubt) => `${doubt.of} ${doubt.line}`).sort();
    expect(named(unweighed)).toEqual(["K2O 0", "SiO2 0"]);
    expect(named(doubts)).toEqual(["K2O 0", "SiO2 0", "weighing 0", "weighing 1", "weighing 1"]);
    expect(doubts?.flatMap(({ part, line }) => (line === 1 ? part : [])).sort()).toEqual([
      "addition",
      "base",
    ]);
  });

  it("says whose ± was assumed", () => {
    const lines = [
      line("Feldspar", 60, analysed({ K2O: 12, Al2O3: 18, SiO2: 66 })),
      line("A clay", 40, powder({ SiO2: [60, 1], CaO: [20, 1] })),
    ];
    const account = accountOf({ lines }, "unity.SiO2");
    const assumed = new Map(
      account?.doubts.map((each) => [`${each.of} ${each.line}`, each.assumed]),
    );
    expect(assumed.get("SiO2 0")).toBe(true);
    expect(assumed.get("SiO2 1")).toBe(false);
    // 3 % of 66, common practice.
    expect(account?.figures).toContainEqual({
      line: 0,
      of: "SiO2",
      percent: 66,
      plusMinus: 1.98,
      how: "assumed",
    });
  });
});

describe("a number's name", () => {
  it.each([
    ...["", "unity", "unity.XO", "unity.BaO", "unity.FeO", "weight.", "weight.FeO", "mole.sio2"],
    ...["expansion.nobody", "expansion", "loss.SiO2", "unaccounted", "silica-to-r2o3"],
    ...["__proto__", "toString", "unity.toString", "unity.SiO2.SiO2"],
  ])("is none of this glaze's: %j", (name) => {
    expect(accountOf(seger, name)).toBeUndefined();
  });

  it("follows what iron and boron are counted as", () => {
    const lines = [
      ...seger.lines,
      line("Red iron oxide", 4, ideal("Fe2O3"), "addition"),
      line("Boric oxide", 6, ideal("B2O3"), "addition"),
    ];
    const asFeO = { lines, iron: "FeO", boron: "with-alumina" } as const;
    expect(accountOf(asFeO, "unity.FeO")?.counted).toContain(
      "Iron is counted as FeO: each Fe2O3 as two.",
    );
    expect(accountOf(asFeO, "unity.Fe2O3")).toBeUndefined();
    const [, r2o3] = accountOf(asFeO, "silica-to-r2o3")?.brings ?? [];
    expect(r2o3?.lines.map((each) => each.line)).toEqual([0, 3, 5]);
  });

  it("leaves out of an expansion's account what its factors do not cover", () => {
    const lines = [...seger.lines, line("Tin oxide", 1, ideal("SnO2"), "addition")];
    const account = accountOf({ lines }, "expansion.english-turner");
    expect(account?.counted).toContain("Left out, for want of a factor: SnO2.");
    expect(account?.brings[0]?.lines.map((each) => each.line)).toEqual([0, 1, 2, 3]);
    expect(accountOf({ lines }, "expansion.appen")?.brings).toEqual([]);
  });
});

const total = ({ lines }: Brought): number => lines.reduce((sum, { amount }) => sum + amount, 0);

/** The account of every number that a request's chemistry has. */
function accountsOf(request: ChemistryRequest) {
  const chemistry = workOut(request);
  return [...quantitiesOf(chemistry)].flatMap(([of, { value, plusMinus }]) => {
    const name = nameOf(of);
    if (name === undefined) return [];
    const account = accountOf(request, name);
    if (!account) throw new Error(`${name} has no account`);
    expect(account.quantity).toEqual({ value, plusMinus });
    return [{ account, value, plusMinus }];
  });
}

/** From the names that the tests give to numbers to those that a page asks by. */
function nameOf(of: string): string | undefined {
  if (of in asked) return asked[of];
  return of.startsWith("ratio ") ? undefined : of.replace(" ", ".");
}

const asked: Record<string, string> = {
  "ratio silicaToAlumina": "silica-to-alumina",
  "ratio silicaToR2O3": "silica-to-r2o3",
  "ratio glassFormersToAlumina": "glass-formers-to-alumina",
  "ratio alkaliShare": "alkali-share",
};
