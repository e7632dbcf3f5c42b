import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { judgeLeach, speaksAgainstPassing } from "../../src/chem/leach.ts";
import { articleClasses, jurisdictions, leachLimits } from "../../src/chem/leach-limits.ts";
import printed from "../reference/safety-limits.json" with { type: "json" };

/** Figures for lead, one a specimen, such as `0.4` or `<0.02`. */
const lead = (unit: string, ...said: string[]) =>
  said.map((figure, place) => ({
    element: "Pb",
    qualifier: figure.startsWith("<") ? ("<" as const) : ("=" as const),
    value: new Decimal(figure.replace("<", "")),
    unit,
    specimen: `piece ${place + 1}`,
  }));

const judge = (jurisdiction: string, articleClass: string, figures: ReturnType<typeof lead>) =>
  judgeLeach(figures, { jurisdictions: [jurisdiction], articleClass }).find(
    ({ element }) => element === "Pb",
  );

const six = (figure: string) => Array.from({ length: 6 }, () => figure);

describe("a leach report beside printed limits", () => {
  it.each<[string, string, string, string, string[], string]>([
    // Council Directive 84/500/EEC, Art. 2(4) as amended by 2005/31/EC: category 2, Pb 4.0 mg/l.
    ["eu", "category 2", "keeps to it", "mg/l", ["4.0"], "within"],
    ["eu", "category 2", "is below a limit of detection under it", "mg/L", ["<0.05"], "within"],
    ["eu", "category 2", "is over by more than half", "mg/l", ["6.1"], "over"],
    // Art. 2(5): up to 50 % over where three further articles keep to it on average.
    ["eu", "category 2", "is over by half, alone", "mg/l", ["6.0"], "cannot tell"],
    [
      "eu",
      "category 2",
      "is over by half, three others not",
      "mg/l",
      ["6", "3", "4", "4"],
      "within",
    ],
    ["eu", "category 2", "is over by half, others too", "mg/l", ["6", "5", "5", "5"], "over"],
    ["eu", "category 2", "is open above it", "mg/l", ["<5"], "cannot tell"],
    // Category 1 is printed by area: 0.8 mg/dm².
    ["eu", "category 1", "is by volume", "mg/l", ["0.1"], "cannot tell"],
    ["eu", "category 1", "is by area", "mg/dm2", ["0.8"], "within"],
    ["eu", "Category 1 ", "is by area and over", "mg/dm²", ["1.3"], "over"],
    // FDA CPG 545.450: cups and mugs, any one of six over 0.5 µg/ml.
    ["us-fda", "cups and mugs", "has one of two over", "µg/ml", ["0.4", "0.6"], "over"],
    ["us-fda", "cups and mugs", "has six within", "mg/l", six("0.5"), "within"],
    ["us-fda", "cups and mugs", "has five within", "ug/mL", six("0.1").slice(1), "cannot tell"],
    ["us-fda", "cups and mugs", "has one open", "µg/ml", [...six("0.1"), "<0.6"], "cannot tell"],
    // FDA CPG 545.450: flatware, the mean of six, 3.0 µg/ml.
    ["us-fda", "flatware", "has its mean within", "µg/ml", [...six("2").slice(1), "4"], "within"],
    ["us-fda", "flatware", "has its mean over", "µg/ml", six("3.1"), "over"],
    ["us-fda", "flatware", "has too few", "µg/ml", ["9"], "cannot tell"],
    [
      "us-fda",
      "flatware",
      "may be over or not",
      "µg/ml",
      [...six("2").slice(1), "<9"],
      "cannot tell",
    ],
    // Consent judgment of 1993: ppm of the solution, which mg/l is not by definition.
    ["us-ca", "flatware", "is in mg/l", "mg/l", ["0.1"], "cannot tell"],
    ["us-ca", "flatware", "is over in ppm", "ppm", ["0.3"], "over"],
    ["us-ca", "flatware", "is within by a rule not held", "ppm", ["0.1"], "cannot tell"],
    ["iso-6486", "large hollowware", "is over in each", "mg/l", ["1.1", "2"], "over"],
    ["iso-6486", "large hollowware", "is over in one", "mg/l", ["0.9", "2"], "cannot tell"],
    ["iso-6486", "a jug", "is of a class that is none", "mg/l", ["0.1"], "cannot tell"],
    ["iso-6486", "", "says no class", "mg/l", ["0.1"], "cannot tell"],
    ["us-fda", "small hollowware", "does not say whether cups", "mg/l", six("0.1"), "cannot tell"],
  ])("%s, %s: what %s (%s %s) is %s", (jurisdiction, articleClass, _, unit, figures, is) => {
    const judged = judge(jurisdiction, articleClass, lead(unit, ...figures));
    expect(judged?.is).toBe(is);
    expect(judged?.says).not.toMatch(/safe|passes|compliant/i);
  });

  it("counts a specimen once, at its highest, and one without a name as one", () => {
    const twice = six("0.1").map((_, place) => ({
      ...(lead("mg/l", "0.1")[0] as ReturnType<typeof lead>[number]),
      specimen: place < 3 ? "cup 1" : "",
    }));
    const judged = judge("us-fda", "cups and mugs", twice);
    expect(judged).toMatchObject({ is: "cannot tell", says: expect.stringContaining("2 apart") });
  });

  it("takes a class that leaves something out for the wider one too", () => {
    const cadmium = lead("mg/l", ...six("0.5")).map((figure) => ({ ...figure, element: "Cd" }));
    const articleClass = "small hollowware other than cups and mugs";
    const judged = judgeLeach(cadmium, { jurisdictions: ["us-fda"], articleClass });
    expect(judged.map(({ element, is }) => [element, is])).toEqual([
      ["Pb", "cannot tell"],
      ["Cd", "within"],
    ]);
  });

  it("holds nothing but lead and cadmium against anything, and nothing without a jurisdiction", () => {
    const copper = lead("mg/l", "9").map((figure) => ({ ...figure, element: "Cu" }));
    const all = jurisdictions.map(({ id }) => id);
    expect(judgeLeach(copper, { jurisdictions: all, articleClass: "a jug" })).toEqual([]);
    expect(
      judgeLeach(lead("mg/l", "9"), { jurisdictions: [], articleClass: "category 2" }),
    ).toEqual([]);
  });

  it.each([
    ["over", "us-fda", "cups and mugs", ["0.6"], true],
    ["above by a mean that cannot be taken", "us-fda", "flatware", ["9"], true],
    ["above and forgiven", "eu", "category 2", ["6", "3", "4", "4"], false],
    ["open above it", "eu", "category 2", ["<5"], false],
    ["within", "eu", "category 2", ["0.1"], false],
  ] as const)(
    "speaks against passing where it is %s: %s %s",
    (_, id, articleClass, said, against) => {
      const judged = judge(id, articleClass, lead("mg/l", ...said));
      expect(judged && speaksAgainstPassing(judged)).toBe(against);
    },
  );
});

describe("the limits that are held", () => {
  it("are of leachates only, never of water, air or a day's dose", () => {
    const others = (printed as { class: string; source: string; body: string }[]).filter(
      ({ class: kind }) => !["leach", "method"].includes(kind),
    );
    expect(others.length).toBeGreaterThan(20);
    expect(leachLimits.every(({ unit }) => !/m3|m³|day/.test(unit))).toBe(true);
    expect(
      jurisdictions.map(({ name }) => name).filter((name) => /WHO|OSHA|HSE/.test(name)),
    ).toEqual([]);
  });

  it("name a jurisdiction that is there, and fit the form's field", () => {
    const ids = jurisdictions.map(({ id }) => id);
    expect(leachLimits.filter(({ jurisdiction }) => !ids.includes(jurisdiction))).toEqual([]);
    expect(articleClasses.filter(({ name }) => name.length > 80)).toEqual([]);
    expect(new Set(articleClasses.map(({ name }) => name)).size).toBe(articleClasses.length);
  });
});
