import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readRecipeText } from "../../src/chem/recipe-text.ts";

const read = (text: string) => {
  const { lines, faults } = readRecipeText(text);
  return {
    lines: lines.map(
      ({ part, name, amount }) => `${part === "addition" ? "+ " : ""}${name} | ${amount}`,
    ),
    faults: faults.map(({ row }) => row),
  };
};
const clean = (text: string) => {
  const { lines, faults } = read(text);
  expect(readRecipeText(text).faults).toEqual([]);
  expect(faults).toEqual([]);
  return lines;
};

describe("a pasted recipe", () => {
  it.each([
    ["Potash feldspar 40", "Potash feldspar | 40"],
    ["40 Potash feldspar", "Potash feldspar | 40"],
    ["40 parts of Potash feldspar", "Potash feldspar | 40"],
    ["Potash feldspar\t40", "Potash feldspar | 40"],
    ["40\tPotash feldspar", "Potash feldspar | 40"],
    ["Potash feldspar, 40", "Potash feldspar | 40"],
    ["Potash feldspar,40", "Potash feldspar | 40"],
    ["Potash feldspar;40;", "Potash feldspar | 40"],
    ["| Potash feldspar | 40 |", "Potash feldspar | 40"],
    ["Potash feldspar: 40 %", "Potash feldspar | 40"],
    ["Potash feldspar......40g", "Potash feldspar | 40"],
    ["• Potash feldspar 40", "Potash feldspar | 40"],
    ["- Potash feldspar 40", "Potash feldspar | 40"],
    ["1. Potash feldspar 40", "Potash feldspar | 40"],
    ["Potash feldspar 40,5", "Potash feldspar | 40.5"],
    ["Potash feldspar\t0,125", "Potash feldspar | 0.125"],
    ["Potash\u00a0feldspar 40", "Potash feldspar | 40"],
    ["Feldspar, potash 40", "Feldspar, potash | 40"],
    ["Feldspar, potash, 40", "Feldspar, potash | 40"],
    ["Frit 12 40", "Frit 12 | 40"],
    ["Frit 12, 40", "Frit 12 | 40"],
    ["40% Frit 12", "Frit 12 | 40"],
    ["Kaolin 2;40", "Kaolin 2 | 40"],
    ["325 mesh quartz\t40", "325 mesh quartz | 40"],
    ["+ Red iron oxide 2", "+ Red iron oxide | 2"],
    ["+2 Red iron oxide", "+ Red iron oxide | 2"],
    ["Add: Red iron oxide 2 %", "+ Red iron oxide | 2"],
  ])("reads %j", (text, wanted) => expect(clean(text)).toEqual([wanted]));

  it("turns what follows a heading into additions, until the base is named again", () => {
    for (const heading of ["Additions", "Colourants:", "Add:", "colorants", "Plus"]) {
      const lines = clean(
        `Quartz 100\n\n${heading}\nTin oxide 5\nRed iron oxide 2\nBase:\nWhiting 0`,
      );
      expect(lines).toEqual([
        "Quartz | 100",
        "+ Tin oxide | 5",
        "+ Red iron oxide | 2",
        "Whiting | 0",
      ]);
    }
  });

  it("leaves out headings of columns, blank rows and totals that are right", () => {
    const lines = clean(
      "Material,Amount\r\nQuartz,60\r\nFrit 12,40\r\n\r\nTotal,100\r\n+ Tin oxide,5\r\nTotal: 105 %",
    );
    expect(lines).toEqual(["Quartz | 60", "Frit 12 | 40", "+ Tin oxide | 5"]);
  });

  it("tells the amount in `40 Frit 12` by the rows around it", () => {
    expect(clean("20 Quartz\n40 Frit 12")).toEqual(["Quartz | 20", "Frit 12 | 40"]);
    expect(clean("Whiting 20\n325 mesh quartz 40")).toEqual([
      "Whiting | 20",
      "325 mesh quartz | 40",
    ]);
    expect(read("40 Frit 12")).toEqual({ lines: [], faults: [1] });
  });

  it.each([
    "Quartz",
    "Quartz -5",
    "Quartz\t-5",
    "Quartz 1,200",
    "Quartz\t1,200",
    "Quartz 1 200",
    "Quartz 1'200",
    "Quartz 1,200.5",
    "Quartz 1e3",
    "Quartz NaN",
    "Quartz 1/2",
    "Quartz 2 kg",
    "Quartz 1000001",
    "Quartz 0.1234567",
    "40",
    "40\t50",
    "Quartz\t40\t50",
    "Quartz\t40\tfine",
    "A|B",
    "Slack Water cone 6",
    "Total alumina 20",
    `${"Q".repeat(101)} 40`,
    `${"Q".repeat(301)} 40`,
  ])("says that it cannot read %j, with its row and text", (text) => {
    const { lines, faults } = readRecipeText(`Whiting\t20\n${text}`);
    expect(lines).toHaveLength(1);
    expect(faults).toEqual([
      { row: 2, text: text.slice(0, 300), says: expect.stringMatching(/^[A-Z0-9].+[.?]$/) },
    ]);
  });

  it("never guesses what a comma or a stop parts", () => {
    expect(read("Quartz, 60\nWhiting 12,5")).toEqual({ lines: ["Quartz | 60"], faults: [2] });
    expect(read("Quartz;12,5\nWhiting;1.200")).toEqual({ lines: ["Quartz | 12.5"], faults: [2] });
    expect(clean("Quartz\t1.200")).toEqual(["Quartz | 1.2"]);
  });

  it("says where a total does not agree", () => {
    expect(read("Quartz 60\nWhiting 39\nTotal 100").faults).toEqual([3]);
  });

  const word = fc.constantFrom(
    "Quartz",
    "Ball clay",
    "Frit 12",
    "Kaolin 2",
    "Feldspar, soda",
    "Zinc oxide (fine)",
    "Éclat",
  );
  const amount = fc
    .integer({ min: 1, max: 999_999 })
    .map((thousandths) => String(thousandths / 1000));
  const lines = fc.array(fc.record({ name: word, amount, added: fc.boolean() }), {
    minLength: 1,
    maxLength: 20,
  });

  it.each(["\t", " ; ", "|"])(
    "comes back as it was written with %j between name and amount",
    (between) => {
      fc.assert(
        fc.property(lines, (all) => {
          const text = all
            .map((each) => `${each.added ? "+ " : ""}${each.name}${between}${each.amount}`)
            .join("\n");
          expect(clean(text)).toEqual(
            all.map((each) => `${each.added ? "+ " : ""}${each.name} | ${each.amount}`),
          );
        }),
      );
    },
  );

  it("accounts for every row that says something, whatever is pasted", () => {
    const typed = fc.oneof(
      fc.string(),
      fc.constantFrom("Quartz 20", "12,5 Whiting", "1.200", "+", ", 5", "\t;", "- 5"),
    );
    fc.assert(
      fc.property(fc.array(typed, { maxLength: 30 }), (rows) => {
        const { lines: got, faults } = readRecipeText(rows.join("\n"));
        expect(new Set([...got, ...faults].map(({ row }) => row)).size).toBe(
          got.length + faults.length,
        );
        for (const { amount: each } of got) expect(each.gte(0) && each.lte(1e6)).toBe(true);
      }),
    );
  });

  // Anything that grows faster than the text would not be done with these before the test's time.
  it.each([" ", ".", "1", ",", "a ", "1,", "\t", "+ ", ". 1"])(
    "does not hang on rows of nothing but %j",
    (piece) => {
      const long = readRecipeText(`a${piece.repeat(100_000)}b`);
      expect(long.faults.map(({ row }) => row)).toEqual([1]);
      const many = Array.from({ length: 500 }, () => `a${piece.repeat(90)}b`).join("\n");
      const { lines, faults } = readRecipeText(many);
      expect(lines.length + faults.length).toBe(500);
    },
  );
});
