import { Decimal } from "decimal.js";
import fc from "fast-check";
import type { Analysis, Figure } from "../../src/chem/analysis.ts";
import type { ChemistryLine, ChemistryRequest } from "../../src/chem/chemistry-types.ts";
import { type Oxide, oxides } from "../../src/chem/oxides.ts";

const hundredths = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map((steps) => new Decimal(steps).div(100));

/** Some oxides that share out at most 97 %, so that a loss taken as the rest stays above 0. */
const composition = fc
  .uniqueArray(fc.constantFrom(...oxides.slice(0, 22)), { minLength: 1, maxLength: 8 })
  .chain((listed) =>
    fc.tuple(
      fc.constant(listed),
      fc.array(fc.integer({ min: 1, max: 1000 }), {
        minLength: listed.length,
        maxLength: listed.length,
      }),
      fc.array(fc.option(hundredths(0, 300), { nil: undefined }), {
        minLength: listed.length,
        maxLength: listed.length,
      }),
      fc.integer({ min: 30, max: 97 }),
    ),
  )
  .map(([listed, weights, spreads, filled]) => {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const figures = listed.map((oxide, at): [Oxide, Figure] => {
      const percent = new Decimal(weights[at]!)
        .times(filled)
        .div(total)
        .toDecimalPlaces(3, Decimal.ROUND_DOWN);
      return [oxide, { percent, plusMinus: spreads[at] }];
    });
    return { figures: Object.fromEntries(figures) as Analysis["oxides"], filled };
  });

const loss = (filled: number) =>
  fc.record({
    percent: fc
      .integer({ min: -500, max: (100 - filled) * 100 })
      .map((steps) => new Decimal(steps).div(100)),
    plusMinus: fc.option(hundredths(0, 200), { nil: undefined }),
  });

export const analysisArbitrary: fc.Arbitrary<Analysis> = composition.chain(({ figures, filled }) =>
  fc.oneof(
    fc.record({
      basis: fc.constant("asReceived" as const),
      oxides: fc.constant(figures),
      ideal: fc.boolean(),
      lossOnIgnition: fc.option(loss(filled), { nil: undefined }),
    }),
    fc.record({
      basis: fc.constant("calcined" as const),
      oxides: fc.constant(figures),
      lossOnIgnition: loss(filled),
    }),
  ),
);

/** Lines from a small pool of powders, so that one analysis often stands in several lines. */
const linesArbitrary = fc.array(analysisArbitrary, { minLength: 1, maxLength: 6 }).chain((pool) =>
  fc
    .array(
      fc.record({
        pick: fc.nat({ max: pool.length }),
        part: fc.constantFrom("base" as const, "addition" as const),
        amount: hundredths(1, 6000),
      }),
      { minLength: 0, maxLength: 10 },
    )
    .map((lines) => [{ pick: 0, part: "base" as const, amount: new Decimal(20) }, ...lines])
    .map((lines) =>
      lines.map(({ pick, part, amount }): ChemistryLine => {
        const analysis = pool[pick] ?? null;
        const name = analysis ? `Powder ${pick}` : "Ready-made stain";
        return { key: name, name, part: analysis ? part : "addition", amount, analysis };
      }),
    ),
);

/** Requests without faults: all conventions, with and without weighing. */
export const requestArbitrary: fc.Arbitrary<ChemistryRequest> = fc
  .record({
    lines: linesArbitrary,
    unity: fc.constantFrom("fluxes" as const, "fluxes-and-colour" as const),
    iron: fc.constantFrom("Fe2O3" as const, "FeO" as const),
    boron: fc.constantFrom("apart" as const, "with-alumina" as const, "with-silica" as const),
    weighing: fc.option(
      fc.record({
        grams: hundredths(5000, 500000),
        scaleGrams: fc.constantFrom("0.01", "0.1", "1", "5"),
      }),
      { nil: undefined },
    ),
  })
  .map(({ weighing, ...request }) => ({
    ...request,
    explain: true,
    ...(weighing ? { grams: weighing.grams, scaleGrams: new Decimal(weighing.scaleGrams) } : {}),
  }));
