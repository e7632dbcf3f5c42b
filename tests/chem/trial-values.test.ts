import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { type Finding, type Level, workOut } from "../../src/chem/chemistry.ts";
import {
  firstThatMoves,
  shownValueOf,
  shownValues,
  tintOf,
  turnsOf,
} from "../../src/chem/trial-values.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";

const line = (formula: string, amount: number, part: "base" | "addition" = "base") => {
  const read = analysisOfFormula(formula, { ideal: true });
  if (read.kind === "unreadable") throw new Error(read.says);
  const { analysis } = read;
  return { key: formula, name: formula, part, amount: new Decimal(amount), analysis };
};
// H. A. Seger's cone 4 in round parts: silica to alumina and the alkali share move with the feldspar.
const glassy = [line("K2O·Al2O3·6SiO2", 83.55), line("CaCO3", 35), line("SiO2", 54)];
const chemistryOf = (...more: ReturnType<typeof line>[]) =>
  workOut({ lines: [...glassy, ...more] });

describe("what a trial's points are looked at by", () => {
  it("has the ratios, the expansion, and each oxide that a point has", () => {
    const plain = chemistryOf();
    const green = chemistryOf(line("CuO", 2, "addition"));
    const names = shownValues([plain, green]).map(({ name }) => name);
    expect(names.slice(0, 3)).toEqual(["silica-to-alumina", "alkali-share", "expansion"]);
    expect(names).toContain("CuO");
    expect(shownValueOf(plain, "CuO")).toEqual({ value: 0, plusMinus: 0 });
    // Seger's K2O 0.3 with CaO 0.7: 83.55/556.66 is 0.15 moles of feldspar, 35/100.09 is 0.35.
    expect(shownValueOf(plain, "alkali-share")?.value).toBeCloseTo(0.3, 3);
  });

  it("begins with the first that is not the same at every point", () => {
    const some = [chemistryOf(), chemistryOf(line("CuO", 2, "addition"))];
    // The ratios do not know of copper; the expansion of the glass does.
    expect(firstThatMoves(shownValues(some), some)?.name).toBe("expansion");
    const others = [chemistryOf(), chemistryOf(line("SiO2", 20))];
    expect(firstThatMoves(shownValues(others), others)?.name).toBe("silica-to-alumina");
  });

  it("tints in fifths, and alike where all are the same", () => {
    expect([0, 1.9, 2, 5, 7.9, 8, 10].map((each) => tintOf(each, 0, 10))).toEqual([
      0, 0, 1, 2, 3, 4, 4,
    ]);
    expect(tintOf(3, 3, 3)).toBe(0);
  });
});

describe("where a ladder's screen changes its opinion", () => {
  const finding = (rule: string, level: Level): Finding => ({
    rule,
    level,
    says: rule,
    source: "",
  });
  const point = (n: number, ...findings: Finding[]) => ({ n, findings });

  it("names the points, what begins there and what ends", () => {
    const [leach, raw] = [finding("leach", "caution"), finding("raw", "stop")];
    const turns = turnsOf([
      point(1),
      point(2, finding("good to know", "note")),
      point(3, leach),
      point(4, leach),
      point(5, raw),
    ]);
    expect(turns).toEqual([
      { n: 3, begins: [leach], ends: [] },
      { n: 5, begins: [raw], ends: [leach] },
    ]);
  });

  it("hears of a rule that grows graver", () => {
    const [mild, grave] = [finding("leach", "caution"), finding("leach", "stop")];
    expect(turnsOf([point(1, mild), point(2, grave)])).toEqual([
      { n: 2, begins: [grave], ends: [mild] },
    ]);
  });
});
