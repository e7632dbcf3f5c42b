import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ComparedLine, type LineChange, lineChanges } from "../../src/chem/line-changes.ts";

const line = (
  material: string,
  amount: string,
  part: ComparedLine["part"] = "base",
  analysis: string | null = "a",
): ComparedLine => ({ material, amount: new Decimal(amount), part, analysis });

const told = (changes: readonly LineChange[]) =>
  changes.map(({ material, is, by }) => `${material} ${is} ${by.toFixed()}`);

describe("the lines of two recipes side by side", () => {
  it("says what came, went, moved and stayed", () => {
    const before = [line("feldspar", "40"), line("whiting", "20"), line("quartz", "40")];
    const after = [line("feldspar", "40"), line("quartz", "45"), line("talc", "15")];
    expect(told(lineChanges(before, after))).toEqual([
      "feldspar same 0",
      "whiting removed -20",
      "quartz changed 5",
      "talc added 15",
    ]);
  });

  it("compares at a base of 100, additions with it", () => {
    // By pencil: whiting 30 of 120 is 25 %, iron 3 on 120 is 2.5 %.
    const before = [line("feldspar", "80"), line("whiting", "20"), line("iron", "2", "addition")];
    const after = [line("feldspar", "90"), line("whiting", "30"), line("iron", "3", "addition")];
    expect(told(lineChanges(before, after))).toEqual([
      "feldspar changed -5",
      "whiting changed 5",
      "iron changed 0.5",
    ]);
  });

  it("finds nothing in the same recipe written in thirds", () => {
    const before = [line("feldspar", "1"), line("whiting", "2")];
    const after = [line("feldspar", "7"), line("whiting", "14")];
    expect(lineChanges(before, after).map(({ is }) => is)).toEqual(["same", "same"]);
  });

  it("calls a powder with another analysis changed, with its amount as it was", () => {
    const [change] = lineChanges(
      [line("whiting", "20")],
      [line("whiting", "20", "base", "of a newer lot")],
    );
    expect(change).toMatchObject({ is: "changed", otherAnalysis: true });
    expect(change?.by.isZero()).toBe(true);
  });

  it("keeps the same powder in the base and on top of it apart", () => {
    const before = [line("feldspar", "100"), line("rutile", "3", "addition")];
    const after = [line("feldspar", "97"), line("rutile", "3")];
    expect(lineChanges(before, after).map(({ part, is }) => `${part} ${is}`)).toEqual([
      "base changed",
      "base added",
      "addition removed",
    ]);
  });
});

const lines = fc.array(
  fc.record({
    material: fc.constantFrom("feldspar", "whiting", "quartz", "kaolin", "talc"),
    part: fc.constantFrom("base" as const, "addition" as const),
    analysis: fc.constantFrom("a", "b", null),
    amount: fc.integer({ min: 1, max: 99999 }).map((steps) => new Decimal(steps).div(1000)),
  }),
  { minLength: 1, maxLength: 9 },
);

const mirrored = { added: "removed", removed: "added", changed: "changed", same: "same" } as const;
const inOrder = (changes: readonly LineChange[]) =>
  changes
    .map(({ left, right, by, ...rest }) => ({
      ...rest,
      left: left?.toFixed() ?? null,
      right: right?.toFixed() ?? null,
      by: by.toFixed(),
    }))
    .sort((a, b) => (`${a.part} ${a.material}` < `${b.part} ${b.material}` ? -1 : 1));

describe("whatever is compared", () => {
  it("is the mirror image the other way round", () => {
    fc.assert(
      fc.property(lines, lines, (one, other) => {
        const back = lineChanges(other, one).map((change) => ({
          ...change,
          is: mirrored[change.is],
          left: change.right,
          right: change.left,
          by: change.by.neg().plus(0),
        }));
        expect(inOrder(lineChanges(one, other))).toEqual(inOrder(back));
      }),
    );
  });

  it("has not changed from itself, in any order", () => {
    fc.assert(
      fc.property(lines, (one) => {
        for (const { is, by } of lineChanges(one, [...one].reverse())) {
          expect([is, by.isZero()]).toEqual(["same", true]);
        }
      }),
    );
  });
});
