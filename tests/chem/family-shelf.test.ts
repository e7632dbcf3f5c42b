import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { coverageOf, type FamilyMember, shoppingFor } from "../../src/chem/family-shelf.ts";

type Lines = [label: string, amount: number, part?: "base" | "addition"][];

const member = (label: string, lines: Lines): FamilyMember => ({
  label,
  lines: lines.map(([of, amount, part = "base"]) => ({
    label: of,
    name: of,
    part,
    amount: new Decimal(amount),
  })),
});

const terns = [
  member("little", [
    ["feldspar", 28],
    ["kaolin", 22],
    ["tin", 5, "addition"],
  ]),
  member("black", [
    ["feldspar", 32],
    ["quartz", 68],
    ["iron", 9, "addition"],
    ["kaolin", 1, "addition"],
  ]),
];

describe("the shelf of a family", () => {
  it("gives percents of each base, shared materials first and additions last", () => {
    const rows = coverageOf(terns).map(({ label, part, percents }) => [
      part,
      label,
      ...percents.map(({ recipe, percent }) => `${recipe} ${percent.toFixed()}`),
    ]);
    expect(rows).toEqual([
      ["base", "feldspar", "little 56", "black 32"],
      ["base", "kaolin", "little 44"],
      ["base", "quartz", "black 68"],
      ["addition", "iron", "black 9"],
      ["addition", "kaolin", "black 1"],
      ["addition", "tin", "little 10"],
    ]);
  });

  it("adds up what all of them need, whichever part it stands in", () => {
    const grams = (of: number) =>
      Object.fromEntries(
        shoppingFor(coverageOf(terns), new Decimal(of)).map(({ label, grams: g }) => [
          label,
          g.toNumber(),
        ]),
      );
    expect(grams(100)).toEqual({ feldspar: 88, iron: 9, kaolin: 45, quartz: 68, tin: 10 });
    expect(grams(5000)).toEqual({
      feldspar: 4400,
      iron: 450,
      kaolin: 2250,
      quartz: 3400,
      tin: 500,
    });
  });

  it("has nothing of a base of nothing, and nothing of a line of nothing", () => {
    expect(coverageOf([member("empty", [["quartz", 0]])])).toEqual([]);
    expect(
      coverageOf([
        member("one", [
          ["quartz", 5],
          ["kaolin", 0],
        ]),
      ]),
    ).toHaveLength(1);
  });
});
