import { describe, expect, it } from "vitest";
import { readAnalysisText } from "../../src/chem/analysis-text.ts";

const read = (text: string) => {
  const { oxides, loss, faults } = readAnalysisText(text);
  const told = Object.entries(oxides).map(([oxide, figure]) =>
    [oxide, figure.percent.toFixed(), figure.plusMinus?.toFixed()].filter(Boolean).join(" "),
  );
  return { oxides: told, loss: loss?.percent.toFixed(), faults };
};

describe("an analysis as it is copied from a sheet", () => {
  it("is read row by row, with ± and loss where they stand", () => {
    expect(read("SiO2 66.3 ± 0.5\nAl2O3: 18,2 %\r\n\n  K₂O = 10.4 +- 0.2 %\nLOI 0.35\n")).toEqual({
      oxides: ["SiO2 66.3 0.5", "Al2O3 18.2", "K2O 10.4 0.2"],
      loss: "0.35",
      faults: [],
    });
  });

  it.each([
    ["SiO2", "does not read"],
    ["Sand 50", "No oxide is written"],
    ["FeO 3", "No oxide is written"],
    ["SiO2 66.3 0.5", "does not read"],
    ["SiO2 1e3", "does not read"],
    ["SiO2 60\nSiO2 6", "stands here twice"],
    ["SiO2 60\nLOI 1\nloss 2", "stands here twice"],
  ])("refuses %j by its row", (text, says) => {
    const { faults } = read(text);
    expect(faults).toHaveLength(1);
    const [{ row, says: said } = { row: 0, says: "" }] = faults;
    expect(row).toBe(text.split("\n").length);
    expect(said).toContain(says);
  });
});
