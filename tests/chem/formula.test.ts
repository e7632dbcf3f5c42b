import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseFormula } from "../../src/chem/formula.ts";

const atoms = (text: string) => {
  const formula = parseFormula(text);
  return formula.kind === "formula" ? Object.fromEntries(formula.elements) : formula.says;
};

describe("reading a formula", () => {
  // The chemical formulas are textbook ones (from memory); the counts are done by hand.
  it.each([
    ["K2O·Al2O3·6SiO2", { K: 2, Al: 2, Si: 6, O: 16 }],
    ["Al2Si2O5(OH)4", { Al: 2, Si: 2, O: 9, H: 4 }],
    ["0.3Na2O.0.7CaO.0.5B2O3.2.5SiO2", { Na: 0.6, Ca: 0.7, B: 1, Si: 2.5, O: 7.5 }],
    ["Na2O*2B2O3*10H2O", { Na: 2, B: 4, H: 20, O: 17 }],
    ["CaSO4.2H2O", { Ca: 1, S: 1, O: 6, H: 4 }],
    ["CaSO4.0.5H2O", { Ca: 1, S: 1, O: 4.5, H: 1 }],
    ["Al₂O₃ · 2SiO₂ · 2H₂O", { Al: 2, Si: 2, O: 9, H: 4 }],
    ["4MgCO3·Mg(OH)2·4H2O", { Mg: 5, C: 4, O: 18, H: 10 }],
    ["Ca[Mg(CO3)2]", { Ca: 1, Mg: 1, C: 2, O: 6 }],
    ["2(CaO·SiO2)", { Ca: 2, Si: 2, O: 6 }],
    ["CoO", { Co: 1, O: 1 }],
    ["CO2", { C: 1, O: 2 }],
    ["0.1K2O·0.2K2O", { K: 0.6, O: 0.3 }],
  ])("reads %s", (text, wanted) => expect(atoms(text)).toEqual(wanted));

  it.each([
    ["", 0, /stops here/],
    ["SiO2·", 5, /stops here/],
    ["(SiO2", 5, /not closed/],
    ["(SiO2]", 5, /not closed/],
    ["SiO2)", 4, /Nothing opened/],
    ["sio2", 0, /capital/],
    ["Si02", 2, /letter O/],
    ["Xy2O", 0, /No element called Xy/],
    ["K2O Al2O3", 3, /space/],
    ["0,3Na2O", 1, /full stop/],
    ["0SiO2", 0, /above 0/],
    ["99999SiO2", 0, /at most/],
    ["0.1234567SiO2", 0, /6 decimals/],
    ["Si1001O2", 2, /at most/],
    ["((((((((((SiO2))))))))))", 8, /deep/],
    ["((Si999)999)999", 0, /no formula/],
    ["0.000001(0.000001SiO2)", 0, /too little/],
    ["SiO2+", 4, /no place/],
    ["Si".repeat(101), 200, /200/],
  ])("refuses %j at character %d", (text, at, says) => {
    const formula = parseFormula(text);
    expect(formula).toMatchObject({ kind: "unreadable", at });
    expect(atoms(text)).toMatch(says);
  });

  it("never throws and always answers within the text, whatever is typed", () => {
    const piece = fc.constantFrom(..."KSiOAlH()[]{}·.*0123456789 ,+₂aé\u0000💧".split(""));
    const typed = fc.oneof(
      fc.string({ maxLength: 400 }),
      fc.array(piece, { maxLength: 400 }).map((all) => all.join("")),
    );
    fc.assert(
      fc.property(typed, (text) => {
        const formula = parseFormula(text);
        if (formula.kind === "unreadable") {
          expect(formula.at).toBeLessThanOrEqual(text.length);
          expect(formula.says).not.toBe("");
        } else {
          for (const count of formula.elements.values()) expect(count).toBeGreaterThan(0);
        }
      }),
      { numRuns: 3000 },
    );
  });

  // Anything that grows faster than the text would not be done with these before the test's time.
  it.each(["(", "0", " ", "·", "SiO2·", "(K)2"])("does not hang on a million of %j", (piece) => {
    expect(parseFormula(piece.repeat(1e6))).toMatchObject({ kind: "unreadable", at: 200 });
    const fitting = piece.repeat(Math.floor(200 / piece.length));
    expect(parseFormula(fitting)).toMatchObject({
      kind: piece === "(K)2" ? "formula" : "unreadable",
    });
  });
});
