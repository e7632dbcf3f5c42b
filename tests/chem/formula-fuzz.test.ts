import { describe, expect, it } from "vitest";
import { isElement } from "../../src/chem/elements.ts";
import { parseFormula } from "../../src/chem/formula.ts";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import { mulberry32 } from "./draws.ts";

const strings = 100_000;

const pieces = [
  ..."KSiOAlHCaMgNaFeBZnPbXy()[]{}·.*•⋅0123456789 ,;+-_=<>#\t\n₀₂₅é\u0000\u200b\ud83d💧".split(""),
  "SiO2",
  "Al2O3",
  "0.3Na2O",
  "CaCO3",
  "(OH)2",
  "2H2O",
  "·",
  "99999",
  "0.0000001",
  "1e9",
  "NaN",
  "__proto__",
  "constructor",
];

/** Strings of up to 60 pieces: some nearly formulas, some nothing like one. */
function* fuzz(seed: number): Generator<string> {
  const uniform = mulberry32(seed);
  for (let made = 0; made < strings; made++) {
    const count = Math.floor(uniform() ** 2 * 60);
    const sensible = uniform() < 0.3;
    let text = "";
    for (let piece = 0; piece < count; piece++) {
      const from = sensible ? pieces.length - 15 : 0;
      text += pieces[from + Math.floor(uniform() * (pieces.length - from))];
    }
    yield text;
  }
}

describe("a hundred thousand strings", () => {
  it("are each read as a formula or refused in a sentence, and none hangs or throws", () => {
    let read = 0;
    for (const text of fuzz(7)) {
      const formula = parseFormula(text);
      if (formula.kind === "unreadable") {
        if (formula.at < 0 || formula.at > text.length || formula.says === "")
          expect.fail(JSON.stringify({ text, formula }));
        continue;
      }
      read++;
      for (const [symbol, count] of formula.elements)
        if (!isElement(symbol) || !(count > 0 && count <= 1e6)) expect.fail(JSON.stringify(text));
    }
    expect(read).toBeGreaterThan(500);
    expect(read).toBeLessThan(strings / 2);
  });

  it("are each worked out to 100 % or refused", () => {
    let worked = 0;
    for (const text of fuzz(8)) {
      const powder = analysisOfFormula(text);
      if (powder.kind === "unreadable") continue;
      worked++;
      const { oxides, lossOnIgnition } = powder.analysis;
      const sum = Object.values(oxides).reduce((all, { percent }) => all + percent.toNumber(), 0);
      const off = Math.abs(sum + Number(lossOnIgnition?.percent) - 100);
      if (!(off < 1e-9)) expect.fail(`${JSON.stringify(text)} is off by ${off}`);
    }
    expect(worked).toBeGreaterThan(500);
  });
});
