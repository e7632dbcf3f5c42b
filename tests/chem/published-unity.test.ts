import { describe, expect, it } from "vitest";
import { workOut } from "../../src/chem/chemistry.ts";
import type { Oxide } from "../../src/chem/oxides.ts";
import { linesOf, segerBatches, workedBatches } from "../reference/published.ts";

const near = (actual: number | undefined, wanted: number, tolerance: number) =>
  expect(Math.abs((actual ?? 0) - wanted)).toBeLessThanOrEqual(tolerance);

describe("the unity formula", () => {
  // H. A. Seger, Tonindustrie-Zeitung 1886, p. 135, table of cones 1 to 20, as abstracted in
  // Dingler's Polytechnisches Journal 261 (1886), pp. 37-42; the tolerance is the record's.
  it("knows fifteen of Seger's cones", () => expect(segerBatches).toHaveLength(15));

  // C. F. Binns, "The Potter's Craft", 2nd ed., 1922; L. Krakowski, "Basic Internet Glaze Course".
  it("knows ten worked examples", () => expect(workedBatches).toHaveLength(10));

  // Binns prints K2O .15 for his first recipe where the mix gives .10: only the mix is tested.
  const printedRight = [...segerBatches, ...workedBatches].filter(
    ({ id }) => id !== "binns-recipe1-bright-raw-cone06",
  );
  it.each(printedRight)("comes out as printed for $id", (record) => {
    const { unity } = workOut({ lines: linesOf(record) });
    for (const [oxide, moles] of Object.entries(record.published_unity)) {
      near(unity?.[oxide as Oxide]?.value, moles, record.suggested_tolerance_vs_published);
    }
    expect(Object.keys(unity ?? {}).sort()).toEqual(Object.keys(record.published_unity).sort());
  });

  // Computed apart, in exact fractions, from the IUPAC 2021 abridged weights.
  it.each([...segerBatches, ...workedBatches])("agrees with exact fractions for $id", (record) => {
    const { unity, weightPercent, lossOnIgnition, ratios } = workOut({ lines: linesOf(record) });
    const modern = record.computed_modern;
    for (const [oxide, moles] of Object.entries(modern.unity)) {
      near(unity?.[oxide as Oxide]?.value, moles, 6e-6);
    }
    for (const [oxide, percent] of Object.entries(modern.weight_percent_fired)) {
      near(weightPercent[oxide as Oxide]?.value, percent, 6e-5);
    }
    near(lossOnIgnition.value, modern.loi_percent, 6e-5);
    if (modern.SiO2_Al2O3 === null) expect(ratios.silicaToAlumina).toBeNull();
    else near(ratios.silicaToAlumina?.value, modern.SiO2_Al2O3, 6e-5);
  });
});
