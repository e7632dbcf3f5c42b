import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type MergeableLine,
  type Merged,
  mergedBase,
  mergeLines,
  resolve,
} from "../../src/chem/merge-lines.ts";

const line = (material: string, amount: string, analysis: string | null = "a"): MergeableLine => ({
  part: "base",
  material,
  amount: new Decimal(amount),
  analysis,
});

const words = (lines: readonly MergeableLine[]) =>
  lines.map(({ part, material, amount, analysis }) => `${part} ${material} ${amount} ${analysis}`);

function settled(merged: readonly Merged<MergeableLine>[]): string[] {
  const resolved = resolve(merged, {});
  if (resolved.kind === "open") throw new Error(`open: ${resolved.keys}`);
  return words(resolved.values);
}

const base = [line("whiting", "20"), line("quartz", "30"), line("kaolin", "50")];

describe("a recipe and an offer brought together", () => {
  it("takes what each alone changed, added and left out", () => {
    const recipe = [line("whiting", "18"), line("quartz", "30"), line("kaolin", "50")];
    const offer = [line("whiting", "20"), line("quartz", "32"), line("talc", "5")];
    expect(settled(mergeLines(base, recipe, offer))).toEqual([
      "base whiting 18 a",
      "base quartz 32 a",
      "base talc 5 a",
    ]);
  });

  it("puts to the person what both changed, also where one left it out", () => {
    const recipe = [line("whiting", "18"), line("quartz", "30"), line("kaolin", "50")];
    const offer = [line("whiting", "15"), line("quartz", "30"), line("kaolin", "50")];
    const merged = mergeLines(base, recipe, offer);
    expect(resolve(merged, {})).toEqual({ kind: "open", keys: ["base:whiting"] });
    const taken = resolve(merged, { "base:whiting": "offer" });
    expect(taken.kind === "resolved" && words(taken.values)[0]).toBe("base whiting 15 a");

    const without = mergeLines(base, recipe, [line("quartz", "30"), line("kaolin", "50")]);
    expect(resolve(without, {})).toEqual({ kind: "open", keys: ["base:whiting"] });
    const left = resolve(without, { "base:whiting": "offer" });
    expect(left.kind === "resolved" && words(left.values)).toEqual([
      "base quartz 30 a",
      "base kaolin 50 a",
    ]);
  });

  it("takes the analysis with the line that it came with", () => {
    const offer = [line("whiting", "20", "newer"), line("quartz", "30"), line("kaolin", "50")];
    expect(settled(mergeLines(base, base, offer))[0]).toBe("base whiting 20 newer");
    const recipe = [line("whiting", "18"), line("quartz", "30"), line("kaolin", "50")];
    const merged = mergeLines(base, recipe, offer);
    expect(resolve(merged, {}).kind).toBe("open");
    const chosen = resolve(merged, { "base:whiting": "recipe" });
    expect(chosen.kind === "resolved" && words(chosen.values)[0]).toBe("base whiting 18 a");
  });

  it("tells what the base comes to, once that is chosen", () => {
    const iron = { ...line("iron", "3"), part: "addition" as const };
    const recipe = [line("whiting", "18"), line("quartz", "30"), line("kaolin", "50"), iron];
    const offer = [line("whiting", "20"), line("quartz", "33"), line("kaolin", "50")];
    // By pencil: 18 + 33 + 50, the iron on top.
    expect(mergedBase(mergeLines(base, recipe, offer))?.toFixed()).toBe("101");
    const both = [line("whiting", "15"), line("quartz", "30"), line("kaolin", "50")];
    expect(mergedBase(mergeLines(base, recipe, both))).toBeNull();
  });

  it("does not heed a choice where there is nothing to choose", () => {
    const offer = [line("whiting", "15"), line("quartz", "30"), line("kaolin", "50")];
    const resolved = resolve(mergeLines(base, base, offer), { "base:whiting": "recipe" });
    expect(resolved.kind === "resolved" && words(resolved.values)[0]).toBe("base whiting 15 a");
  });
});

/** Few powders and amounts, so that the three often agree. */
const lines = fc.array(
  fc.record({
    part: fc.constantFrom("base" as const, "addition" as const),
    material: fc.constantFrom("whiting", "quartz", "kaolin", "talc"),
    analysis: fc.constantFrom("a", "b", null),
    amount: fc.integer({ min: 1, max: 3 }).map((parts) => new Decimal(parts)),
  }),
  { maxLength: 7 },
);

describe("whatever is brought together", () => {
  it("is the recipe where the offer changed nothing", () => {
    fc.assert(
      fc.property(lines, lines, (b, o) => {
        expect(settled(mergeLines(b, o, b))).toEqual(words(o));
      }),
    );
  });

  it("is the offer where the recipe changed nothing", () => {
    fc.assert(
      fc.property(lines, lines, (b, t) => {
        expect(settled(mergeLines(b, b, t))).toEqual(words(t));
      }),
    );
  });

  it("is what both are, where they are the same", () => {
    fc.assert(
      fc.property(lines, lines, (b, x) => {
        expect(settled(mergeLines(b, x, x))).toEqual(words(x));
      }),
    );
  });

  it("has the same conflicts seen from either side", () => {
    const conflicts = (merged: readonly Merged<MergeableLine>[]) =>
      merged.filter(({ take }) => take === null).map(({ key }) => key);
    fc.assert(
      fc.property(lines, lines, lines, (b, o, t) => {
        const [one, other] = [mergeLines(b, o, t), mergeLines(b, t, o)];
        expect(conflicts(one).sort()).toEqual(conflicts(other).sort());
        for (const { key, recipe, offer } of one) {
          const back = other.find((each) => each.key === key);
          expect([back?.offer, back?.recipe]).toEqual([recipe, offer]);
        }
      }),
    );
  });

  it("is all of one side where every conflict is decided for it", () => {
    fc.assert(
      fc.property(lines, lines, lines, (b, o, t) => {
        const merged = mergeLines(b, o, t);
        const choices = Object.fromEntries(merged.map(({ key }) => [key, "recipe" as const]));
        const resolved = resolve(merged, choices);
        expect(resolved.kind).toBe("resolved");
        for (const { key, take, recipe } of merged) {
          if (take !== null || !recipe) continue;
          expect(resolved.kind === "resolved" && resolved.values.includes(recipe), key).toBe(true);
        }
      }),
    );
  });
});
