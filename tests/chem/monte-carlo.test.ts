import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { type ChemistryRequest, workOut } from "../../src/chem/chemistry.ts";
import { firstOrderOf, mostFluxDoubt } from "../../src/chem/first-order.ts";
import { meltOf } from "../../src/chem/melt.ts";
import { molesPerGram, molesPerGramAsFeO, unityBase } from "../../src/chem/unity-base.ts";
import { analysisOf, linesOf, segerBatches, workedBatches } from "../reference/published.ts";
import { eightLines, line, shelf } from "../reference/shelf.ts";
import { drawUnity, type Interval } from "./monte-carlo.ts";

const draws = 200_000;
const enoughMoles = 0.02;

/** A printed batch of real powders: formulas, but with the ± assumed of them. */
const printed = (id: string): ChemistryRequest => {
  const batch = [...segerBatches, ...workedBatches].find((each) => each.id === id);
  if (!batch) throw new Error(id);
  return {
    lines: linesOf(batch).map((each) => ({
      ...each,
      analysis: analysisOf(batch.materials[each.name]!.formula, false),
    })),
  };
};

// A scale so coarse that its step outweighs the analysis would make the true interval narrower than
// k = 2 says: 95 % of a uniform spread lie within 1.65 standard uncertainties.
const grams = new Decimal(100);
const recipes: Record<string, ChemistryRequest> = {
  "eight analysed lines": { lines: eightLines() },
  "eight lines weighed": {
    lines: eightLines(),
    grams,
    scaleGrams: new Decimal("0.1"),
  },
  "iron counted as a flux": { lines: eightLines(), unity: "fluxes-and-colour", iron: "FeO" },
  "Seger's cone 1": printed("seger-cone-1"),
  "Seger's cone 4": printed("seger-cone-4"),
  "Seger's cone 20": printed("seger-cone-20"),
  "white lead and flint": printed("binns-white-lead-flint"),
  "a boron glaze": {
    lines: [
      line("Frit", 60, shelf.frit),
      line("Quartz", 20, shelf.quartz),
      line("Kaolin", 20, shelf.kaolin),
    ],
  },
  "a lime matt with calcined clay": {
    lines: [
      line("Whiting", 30, shelf.whiting),
      line("Calcined clay", 25, shelf.calcinedClay),
      line("Kaolin", 15, shelf.kaolin),
      line("Quartz", 30, shelf.quartz),
    ],
  },
  "a talc glaze whose clay has no loss": {
    lines: [
      line("Talc", 25, shelf.talc),
      line("Potash feldspar", 45, shelf.potashFeldspar),
      line("Ball clay", 30, shelf.ballClay),
    ],
  },
};

const half = ({ low, high }: Interval) => (high - low) / 2;

// JCGM 101:2008, clause 8: a Monte Carlo run of the same unknowns is what first order is held to.
describe("the ± of a unity formula", () => {
  it.each(Object.keys(recipes).map((name, seed) => [name, seed] as const))(
    "is what two hundred thousand draws give for %s",
    (name, seed) => {
      const request = recipes[name]!;
      const intervals = drawUnity(request, { draws, seed: seed + 1 });
      const { unity } = workOut(request);
      let compared = 0;
      for (const [oxide, { value, plusMinus }] of Object.entries(unity ?? {})) {
        const drawn = intervals.get(oxide)!;
        if (value > enoughMoles) {
          const off = Math.abs(half(drawn) - plusMinus);
          expect(off, `${oxide} ${plusMinus}`).toBeLessThanOrEqual(0.05 * plusMinus);
          compared++;
        }
        // Ends are shifted by the curve of the quotient: to second order, by ± × the doubt of the base.
        const ends = Math.max(drawn.high - value - plusMinus, value - plusMinus - drawn.low, 0);
        expect(ends, `${oxide} ends`).toBeLessThanOrEqual(0.1 * plusMinus + 1e-4);
      }
      expect(compared).toBeGreaterThanOrEqual(2);
    },
  );
});

/** A slip of silica and clay whose only flux is potash, known to a share of itself. */
const slip = (share: number): ChemistryRequest => ({
  lines: [
    line("Slip", 100, {
      basis: "asReceived",
      oxides: {
        K2O: { percent: new Decimal("0.5"), plusMinus: new Decimal("0.5").times(share) },
        Al2O3: { percent: new Decimal(25), plusMinus: new Decimal("0.1") },
        SiO2: { percent: new Decimal(70), plusMinus: new Decimal("0.1") },
      },
    }),
  ],
});
const judge = (request: ChemistryRequest, iron: "Fe2O3" | "FeO" = "Fe2O3") =>
  firstOrderOf(
    meltOf(request),
    iron === "FeO" ? molesPerGramAsFeO : molesPerGram,
    unityBase(request.unity ?? "fluxes", iron),
  );

describe("first order", () => {
  it.each([0.1, 0.15, 0.19, 0.25, 0.3, 0.4])(
    "is judged as the draws judge it at a share of %d",
    (share) => {
      const request = slip(share);
      const drawn = drawUnity(request, { draws, seed: 11 });
      const { value, plusMinus } = workOut(request).unity!.SiO2!;
      const missed = Math.abs(half(drawn.get("SiO2")!) / plusMinus - 1);
      const judged = judge(request)!;
      expect(judged.share).toBeCloseTo(share, 12);
      expect(judged.enough).toBe(share <= mostFluxDoubt);
      expect(judged.enough).toBe(missed <= 0.05);
      expect(drawn.get("SiO2")!.high - value).toBeGreaterThan(plusMinus);
    },
  );

  it("is enough for ordinary glazes", () => {
    for (const [name, request] of Object.entries(recipes))
      expect(judge(request, request.iron)?.enough, name).toBe(true);
  });

  it("counts what moves several fluxes together", () => {
    const lines = [
      line("Feldspar", 50, { ...shelf.potashFeldspar, ideal: true }),
      line("Quartz", 50, { ...shelf.quartz, ideal: true }),
    ];
    expect(judge({ lines })?.share).toBe(0);
    // By hand: a step of 10 g on 100 g is ± 10/√3 parts of the 50 of feldspar, 11.5 %.
    const coarse = { lines, grams, scaleGrams: new Decimal(10) };
    expect(judge(coarse)?.share).toBeCloseTo(0.11547, 5);
  });

  it("has nothing to judge without a flux", () =>
    expect(judge({ lines: [line("Quartz", 10, shelf.quartz)] })).toBeNull());
});
