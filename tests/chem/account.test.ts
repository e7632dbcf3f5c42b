import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { accountOf } from "../../src/chem/account.ts";
import type { Analysis } from "../../src/chem/analysis.ts";
import { type ChemistryLine, workOut } from "../../src/chem/chemistry.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";

const powder = (figures: Partial<Record<Oxide, [number, number]>>): Analysis => ({
  basis: "asReceived",
  oxides: Object.fromEntries(
    Object.entries(figures).map(([oxide, [percent, plusMinus]]) => [
      oxide,
      { percent: new Decimal(percent), plusMinus: new Decimal(plusMinus) },
    ]),
  ),
});

const line = (key: string, analysis: Analysis, amount: number): ChemistryLine => ({
  key,
  name: key,
  part: "base",
  amount: new Decimal(amount),
  analysis,
});

const ideal = (formula: string): Analysis => {
  const worked = analysisOfFormula(formula, { ideal: true });
  if (worked.kind !== "analysis") throw new Error(worked.says);
  return worked.analysis;
};

describe("where a number comes from", () => {
  it("shares out Seger's cone 4 by its lines", () => {
    // H. Seger 1886: feldspar 83.55, whiting 35, quartz 54, kaolin 25.90 with the formulas of the
    // textbooks. By hand, in moles (IUPAC 2021): alumina 83.55/556.654 = 0.15009 from the feldspar
    // and 25.90/258.157 = 0.10033 from the kaolin, so 60 % and 40 %.
    const lines = [
      line("feldspar", ideal("K2O·Al2O3·6SiO2"), 83.55),
      line("whiting", ideal("CaCO3"), 35),
      line("quartz", ideal("SiO2"), 54),
      line("kaolin", ideal("Al2O3·2SiO2·2H2O"), 25.9),
    ];
    const alumina = accountOf({ lines }, "unity.Al2O3");
    const shares = new Map(alumina?.brings[0]?.lines.map((each) => [each.line, each.share]));
    expect(shares.get(0)).toBeCloseTo(0.15009 / (0.15009 + 0.10033), 4);
    expect(shares.get(3)).toBeCloseTo(0.10033 / (0.15009 + 0.10033), 4);
    expect(alumina?.doubts).toEqual([]);
    // All loss is the whiting's carbon dioxide and the kaolin's water: 35 × 0.43971, 25.90 × 0.13957.
    const loss = accountOf({ lines }, "loss")?.brings[0]?.lines;
    expect(loss?.find((each) => each.line === 1)?.share).toBeCloseTo(15.39 / (15.39 + 3.615), 3);
  });

  it("weighs the doubts as the law of propagation does", () => {
    // JCGM 100:2008, 5.1.2, by hand: w = 100 s/(s + t) has ∂w/∂s = 0.4 and ∂w/∂t = −0.6 at s = 60,
    // t = 40, so with ± 1 on both the shares are 0.16 and 0.36 of 0.52.
    const lines = [line("a clay", powder({ SiO2: [60, 1], Al2O3: [40, 1] }), 100)];
    const doubts = accountOf({ lines }, "weight.SiO2")?.doubts;
    expect(doubts?.map(({ of }) => of)).toEqual(["Al2O3", "SiO2"]);
    expect(doubts?.[0]?.share).toBeCloseTo(0.36 / 0.52, 3);
    expect(doubts?.[1]?.share).toBeCloseTo(0.16 / 0.52, 3);
  });

  const names = [
    "unity.SiO2",
    "unity.CaO",
    "weight.K2O",
    "mole.Al2O3",
    "loss",
    "silica-to-alumina",
    "alkali-share",
  ];

  it("has shares that add up, and the number that workOut gives", () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(amounts, fc.constantFrom(...names), ([a = 1, b = 1, c = 1], name) => {
        const lines = [
          line("feldspar", powder({ K2O: [12, 0.4], Al2O3: [18, 0.3], SiO2: [66, 0.5] }), a),
          line(
            "chalk",
            { ...powder({ CaO: [55, 0.5] }), lossOnIgnition: { percent: new Decimal(43) } },
            b,
          ),
          line(
            "clay",
            {
              ...powder({ SiO2: [47, 0.4], Al2O3: [37, 0.4] }),
              lossOnIgnition: { percent: new Decimal(13) },
            },
            c,
          ),
        ];
        const account = accountOf({ lines }, name);
        const chemistry = workOut({ lines });
        if (name === "loss") expect(account?.quantity.value).toBe(chemistry.lossOnIgnition.value);
        if (name === "unity.SiO2") expect(account?.quantity).toEqual(chemistry.unity?.SiO2);
        for (const { lines: shares } of account?.brings ?? []) {
          expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        }
        const sum = account?.doubts.reduce((all, { share }) => all + share, 0);
        expect(sum).toBeCloseTo(1, 6);
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    "",
    "unity",
    "unity.XO",
    "unity.BaO",
    "weight.",
    "expansion.nobody",
    "__proto__",
    "toString",
  ])("knows no number called %j", (name) => {
    const lines = [line("a clay", powder({ SiO2: [60, 1], K2O: [10, 1] }), 100)];
    expect(accountOf({ lines }, name)).toBeUndefined();
  });
});
