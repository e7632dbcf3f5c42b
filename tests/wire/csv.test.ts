import { describe, expect, it } from "vitest";
import { csvText } from "../../src/wire/csv.ts";
import { readPriceList } from "../../src/wire/price-list.ts";

describe("a table for a spreadsheet", () => {
  it.each(["=1+1", "+1", "-1", "@SUM(A1)", "\tx"])("takes %j for no formula", (cell) => {
    expect(csvText([["a", cell]])).toContain(`'${cell}`);
  });

  it("keeps quotes, commas and lines in their cells", () => {
    expect(csvText([['a "b"', "c,d", "e\nf", "g"]])).toBe('"a ""b""","c,d","e\nf",g\r\n');
  });
});

describe("a pasted price list", () => {
  const rowsOf = (text: string) =>
    readPriceList(text).rows.map(({ line, material, packGrams, packPrice }) =>
      [line, material, packGrams, packPrice].join("|"),
    );
  const faultsOf = (text: string) => readPriceList(text).faults.map(({ says }) => says);

  it.each([
    ["Quartz,5000,7.50", ["1|Quartz|5000|7.5"]],
    [
      "powder\tgrams\tprice\nQuartz\t5000\t7.50\n\nKaolin\t1000\t2",
      ["2|Quartz|5000|7.5", "4|Kaolin|1000|2"],
    ],
    ['"Kaolin, fine";25000;26.90', ["1|Kaolin, fine|25000|26.9"]],
  ])("is read by its rows: %j", (text, rows) => {
    expect(rowsOf(text)).toEqual(rows);
    expect(faultsOf(text)).toEqual([]);
  });

  it.each([
    ["Quartz,5000", "Line 1:"],
    ["Quartz,5000,7.50,GBP", "Line 1:"],
    ["Quartz,5 kg,7.50", "Line 1:"],
    ["a,b,c\nQuartz,5000,-1", "Line 2:"],
    ["powder,grams,price", "There is a heading"],
    ["Quartz,1000,1\n".repeat(501), "A list has 500 lines at most"],
  ])("has its faults told by their lines: %j", (text, says) => {
    expect(faultsOf(text)[0]).toContain(says);
  });
});
