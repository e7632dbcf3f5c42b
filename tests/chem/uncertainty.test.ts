import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Analysis, Figure } from "../../src/chem/analysis.ts";
import { type Chemistry, type ChemistryRequest, workOut } from "../../src/chem/chemistry.ts";
import { assumedPlusMinus } from "../../src/chem/powder.ts";
import { analysed, line, shelf } from "../reference/shelf.ts";
import { requestArbitrary } from "./generated-recipes.ts";
import { quantitiesOf } from "./quantities.ts";

const step = new Decimal("1e-5");

describe("the ± of an answer", () => {
  it("is what each unknown does by small steps, added in squares", () => {
    fc.assert(
      fc.property(requestArbitrary, (request) => {
        const answer = quantitiesOf(workOut(request));
        const squares = new Map<string, number>();
        for (const { moved, plusMinus } of unknownsOf(request)) {
          const [up, down] = [quantitiesOf(moved(step)), quantitiesOf(moved(step.neg()))];
          for (const name of answer.keys()) {
            const slope = ((up.get(name)?.value ?? 0) - (down.get(name)?.value ?? 0)) / 2e-5;
            squares.set(name, (squares.get(name) ?? 0) + (slope * plusMinus) ** 2);
          }
        }
        for (const [name, { value, plusMinus }] of answer) {
          const stepwise = Math.sqrt(squares.get(name) ?? 0);
          const allowed = 2e-5 * Math.max(plusMinus, Math.abs(value) * 0.01, 1e-3);
          expect(Math.abs(plusMinus - stepwise), name).toBeLessThanOrEqual(allowed);
        }
      }),
      { numRuns: 60 },
    );
  });

  // Common practice, no source: 3 %, at least 0.1, at most 0.1 + 0.3 × what is missing from 100.
  it.each([
    [29.3, 0.879],
    [2.1, 0.1],
    [0, 0.1],
    [99.9, 0.13],
    [100, 0.1],
    [111.1, 0.1],
    [-3.46, 0.1038],
  ])("is assumed for %d as %d", (percent, wanted) => {
    expect(assumedPlusMinus(percent)).toBeCloseTo(wanted, 10);
  });

  it("is 0 for ideal powders and for oxides that are not listed", () => {
    const ideal: Analysis = { ...shelf.quartz, ideal: true };
    const { weightPercent } = workOut({ lines: [line("Quartz", 100, ideal)] });
    expect(Object.values(weightPercent).map(({ plusMinus }) => plusMinus)).toEqual([0, 0, 0]);
    expect(weightPercent.CaO).toBeUndefined();
  });

  it("counts weighing only with the batch and the scale", () => {
    const lines = [
      line("A", 50, { ...shelf.quartz, ideal: true }),
      line("B", 50, { ...shelf.whiting, ideal: true }),
    ];
    const plusMinus = (request: Partial<ChemistryRequest>) =>
      workOut({ lines, ...request }).weightPercent.SiO2?.plusMinus ?? Number.NaN;
    const [grams, scaleGrams] = [new Decimal(100), new Decimal(1)];
    expect(plusMinus({})).toBe(0);
    expect(plusMinus({ grams })).toBe(0);
    expect(plusMinus({ scaleGrams })).toBe(0);
    const coarse = plusMinus({ grams, scaleGrams });
    expect(coarse).toBeGreaterThan(0.3);
    expect(plusMinus({ grams: grams.times(10), scaleGrams })).toBeCloseTo(coarse / 10, 10);
  });

  // By hand: a loss that is the rest moves against its oxide, so CaO 56 ± 1 means a loss of 44 ± 1.
  it("ties a missing loss to the oxides", () => {
    const whiting: Analysis = {
      basis: "asReceived",
      oxides: { CaO: { percent: new Decimal(56), plusMinus: new Decimal(1) } },
    };
    const { lossOnIgnition, unaccounted, assumed } = workOut({
      lines: [line("Whiting", 10, whiting)],
    });
    expect(lossOnIgnition.value).toBeCloseTo(44, 12);
    expect(lossOnIgnition.plusMinus).toBeCloseTo(1, 12);
    expect(unaccounted).toBeUndefined();
    expect(assumed.map(({ what }) => what)).toEqual(["loss"]);
  });

  // By hand: SiO2 65 and Al2O3 30 of the calcined powder, loss 10, are 58.5 and 27 as weighed.
  it("turns a calcined analysis back by its loss", () => {
    const { unaccounted, weightPercent } = workOut({
      lines: [line("Clay", 10, analysed({ SiO2: 65, Al2O3: 30 }, 10, "calcined"))],
    });
    expect(unaccounted?.value).toBeCloseTo(4.5, 10);
    expect(weightPercent.SiO2?.value).toBeCloseTo((100 * 65) / 95, 10);
  });
});

type Unknown = { moved: (by: Decimal) => Chemistry; plusMinus: number };

/** Every unknown of a request: how the answer comes out with it moved, and its ± at k = 2. */
function unknownsOf(request: ChemistryRequest): Unknown[] {
  const analyses = new Map(
    request.lines.flatMap(({ key, analysis }) => (analysis ? [[key, analysis]] : [])),
  );
  const ofAnalyses = [...analyses].flatMap(([key, analysis]) => {
    const spread = ({ percent, plusMinus }: Figure) =>
      plusMinus?.toNumber() ?? (analysis.ideal ? 0 : assumedPlusMinus(percent.toNumber()));
    const withAnalysis = (changed: Analysis) =>
      workOut({
        ...request,
        lines: request.lines.map((each) =>
          each.key === key ? { ...each, analysis: changed } : each,
        ),
      });
    const listed = Object.entries(analysis.oxides).map(
      ([oxide, figure]): Unknown => ({
        plusMinus: spread(figure),
        moved: (by) =>
          withAnalysis({
            ...analysis,
            oxides: { ...analysis.oxides, [oxide]: { percent: figure.percent.plus(by) } },
          }),
      }),
    );
    const loss = analysis.lossOnIgnition;
    if (!loss) return listed;
    return [
      ...listed,
      {
        plusMinus: spread(loss),
        moved: (by: Decimal) =>
          withAnalysis({ ...analysis, lossOnIgnition: { percent: loss.percent.plus(by) } }),
      },
    ];
  });
  const { grams, scaleGrams, lines } = request;
  if (!grams || !scaleGrams) return ofAnalyses;
  const base = lines.reduce(
    (total, { part, amount }) => (part === "base" ? total.plus(amount) : total),
    new Decimal(0),
  );
  const plusMinus = scaleGrams.div(Math.sqrt(3)).times(base).div(grams).toNumber();
  const weighings = lines.flatMap(({ key, part }, at): Unknown[] => {
    const first = lines.findIndex((each) => each.key === key && each.part === part) === at;
    const moved = (by: Decimal) =>
      workOut({
        ...request,
        lines: lines.map((each, index) =>
          index === at ? { ...each, amount: each.amount.plus(by) } : each,
        ),
      });
    return first ? [{ plusMinus, moved }] : [];
  });
  return [...ofAnalyses, ...weighings];
}
