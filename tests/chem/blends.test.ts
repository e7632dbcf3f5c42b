import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { basesInLitre, dryGravityOf } from "../../src/chem/blend-slurries.ts";
import {
  type Blend,
  type BlendLine,
  type BlendPoint,
  type CornerBlend,
  faultsOfBlend,
  pointCount,
  pointsOf,
} from "../../src/chem/blends.ts";
import { baseTotal, type Part } from "../../src/chem/lines.ts";

const line = (key: string, amount: Decimal.Value, part: Part = "base"): BlendLine => ({
  key,
  part,
  amount: new Decimal(amount),
});
const written = ({ lines }: { lines: readonly BlendLine[] }) =>
  lines.map(({ key, part, amount }) => `${part === "base" ? "" : "+"}${key} ${amount.toFixed()}`);
const writtenAll = (blend: Blend<BlendLine>) => pointsOf(blend).map(written);

const pale = [line("feldspar", 40), line("quartz", 60)];
const dark = [line("feldspar", 20), line("kaolin", 80), line("iron", 5, "addition")];
const far = [line("whiting", 100)];

const amount = fc
  .integer({ min: 1, max: 100_000 })
  .map((thousandths) => new Decimal(thousandths).div(1000));
const corner: fc.Arbitrary<BlendLine[]> = fc
  .tuple(
    fc.uniqueArray(fc.constantFrom("feldspar", "quartz", "kaolin", "whiting"), { minLength: 1 }),
    fc.uniqueArray(fc.constantFrom("iron", "copper", "tin"), { maxLength: 2 }),
    fc.array(amount, { minLength: 6, maxLength: 6 }),
  )
  .map(([base, additions, amounts]) => [
    ...base.map((key, at) => line(key, amounts[at] as Decimal)),
    ...additions.map((key, at) => line(key, amounts[4 + at] as Decimal, "addition")),
  ]);
const corners = (count: number) => fc.array(corner, { minLength: count, maxLength: count });
const steps = fc.integer({ min: 1, max: 7 });
const blend: fc.Arbitrary<CornerBlend<BlendLine>> = fc.oneof(
  fc.record({ kind: fc.constant("line" as const), corners: corners(2), steps }),
  fc.record({ kind: fc.constant("triaxial" as const), corners: corners(3), steps }),
  fc.record({
    kind: fc.constant("grid" as const),
    corners: corners(4),
    steps: fc.tuple(steps, steps),
  }),
);

/** A corner by itself at a base of 100, by the rule that its point is held to. */
const alone = (lines: readonly BlendLine[]) =>
  written(
    pointsOf({ kind: "line", corners: [lines, lines], steps: 1 })[0] as BlendPoint<BlendLine>,
  );

describe("a line blend", () => {
  it("of 10 steps has 11 points, from its first corner to its second", () => {
    const points = pointsOf({ kind: "line", corners: [pale, dark], steps: 10 });
    expect(points.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(points[3]?.at).toEqual([0.7, 0.3]);
  });

  // By hand: a third of the way, feldspar (2 × 40 + 20)/3, quartz 2 × 60/3, kaolin 80/3, iron 5/3.
  it("mixes both parts by the shares, and gives the last digit to the largest remainder", () => {
    expect(writtenAll({ kind: "line", corners: [pale, dark], steps: 3 })).toEqual([
      ["feldspar 40", "quartz 60"],
      ["feldspar 33.333333333", "quartz 40", "kaolin 26.666666667", "+iron 1.666666667"],
      ["feldspar 26.666666667", "quartz 20", "kaolin 53.333333333", "+iron 3.333333333"],
      ["feldspar 20", "kaolin 80", "+iron 5"],
    ]);
  });

  it("brings corners to a base of 100 with their additions before it mixes them", () => {
    const twice = [line("whiting", 150), line("quartz", 50), line("tin", 8, "addition")];
    expect(writtenAll({ kind: "line", corners: [twice, far], steps: 2 })).toEqual([
      ["whiting 75", "quartz 25", "+tin 4"],
      ["whiting 87.5", "quartz 12.5", "+tin 2"],
      ["whiting 100"],
    ]);
  });

  it("merges equal powder and part only: in the base and on top of it are two lines", () => {
    const both = [line("tin", 10), line("quartz", 90), line("tin", 6, "addition")];
    const [, half] = writtenAll({ kind: "line", corners: [both, far], steps: 2 });
    expect(half).toEqual(["tin 5", "quartz 45", "whiting 50", "+tin 3"]);
  });
});

describe("a triaxial blend", () => {
  it("of 10 steps has 66 points", () => {
    const corners = [pale, dark, far];
    expect(pointsOf({ kind: "triaxial", corners, steps: 10 })).toHaveLength(66);
  });

  it("goes in rows from the first corner down", () => {
    const at = pointsOf({ kind: "triaxial", corners: [pale, dark, far], steps: 2 }).map(
      (point) => point.at,
    );
    expect(at).toEqual([
      [1, 0, 0],
      [0.5, 0.5, 0],
      [0.5, 0, 0.5],
      [0, 1, 0],
      [0, 0.5, 0.5],
      [0, 0, 1],
    ]);
  });
});

describe("a grid", () => {
  it("takes bilinear shares of its corners, row by row", () => {
    const grid = {
      kind: "grid" as const,
      corners: [pale, dark, far, [line("talc", 100)]],
      steps: [2, 1] as [number, number],
    };
    expect(pointsOf(grid).map(({ at }) => at)).toEqual([
      [1, 0, 0, 0],
      [0.5, 0.5, 0, 0],
      [0, 1, 0, 0],
      [0, 0, 1, 0],
      [0, 0, 0.5, 0.5],
      [0, 0, 0, 1],
    ]);
  });
});

describe("a ladder", () => {
  const copper = line("copper", 0, "addition");
  const ladder = (different: Partial<Extract<Blend<BlendLine>, { kind: "ladder" }>>) => ({
    kind: "ladder" as const,
    base: pale,
    addition: copper,
    from: new Decimal(0),
    to: new Decimal(4),
    steps: 4,
    spacing: "even" as const,
    ...different,
  });

  it("climbs evenly, without a line where there is none of it", () => {
    expect(writtenAll(ladder({}))).toEqual([
      ["feldspar 40", "quartz 60"],
      ["feldspar 40", "quartz 60", "+copper 1"],
      ["feldspar 40", "quartz 60", "+copper 2"],
      ["feldspar 40", "quartz 60", "+copper 3"],
      ["feldspar 40", "quartz 60", "+copper 4"],
    ]);
  });

  it("climbs by a factor where it is geometric, its ends exactly what was asked for", () => {
    const [from, to] = [new Decimal("0.25"), new Decimal(8)];
    const points = pointsOf(ladder({ from, to, steps: 5, spacing: "geometric" }));
    expect(points.map(({ at }) => at)).toEqual([[0.25], [0.5], [1], [2], [4], [8]]);
    // 1 × 10^(1/2), a published constant: 3.16227766016838.
    const root = pointsOf(
      ladder({ from: new Decimal(1), to: new Decimal(10), steps: 2, spacing: "geometric" }),
    );
    expect(written(root[1] as BlendPoint<BlendLine>).at(-1)).toBe("+copper 3.16227766");
  });

  it("adds to what the base has of it already, in percent of the base", () => {
    const base = [line("quartz", 50), line("copper", 1, "addition")];
    const points = pointsOf(ladder({ base, from: new Decimal(1), to: new Decimal(3), steps: 1 }));
    expect(points.map(written)).toEqual([
      ["quartz 100", "+copper 3"],
      ["quartz 100", "+copper 5"],
    ]);
  });

  it.each<[string, Parameters<typeof ladder>[0], string]>([
    ["geometric from 0", { spacing: "geometric" }, "from"],
    ["from below 0", { from: new Decimal(-1) }, "from"],
    ["to ten times the base and more", { to: new Decimal(1001) }, "to"],
    ["in 500 steps", { steps: 500 }, "steps"],
  ])("%s is refused at its place", (_, different, path) => {
    expect(faultsOfBlend(ladder(different)).map((fault) => fault.path)).toEqual([path]);
  });
});

describe("any blend", () => {
  it("has its corners at its ends, exactly", () => {
    fc.assert(
      fc.property(blend, (asked) => {
        const points = pointsOf(asked);
        for (const [at, lines] of asked.corners.entries()) {
          const own = points.find((point) => point.at[at] === 1);
          expect(own && written(own)).toEqual(alone(lines));
        }
      }),
    );
  });

  it("has corners of a base of 100 back as they were typed", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 99_999 }),
        fc.integer({ min: 1, max: 40 }),
        (part, steps) => {
          const share = new Decimal(part).div(1000);
          const typed = [line("quartz", share), line("talc", new Decimal(100).minus(share))];
          const points = pointsOf({
            kind: "triaxial",
            corners: [far, typed, pale],
            steps: Math.min(steps, 30),
          });
          const own = points.find((point) => point.at[1] === 1);
          expect(own && written(own)).toEqual(written({ lines: typed }));
        },
      ),
    );
  });

  it("has a base of exactly 100 at every point, and shares of one whole", () => {
    fc.assert(
      fc.property(blend, (asked) => {
        const points = pointsOf(asked);
        expect(points).toHaveLength(pointCount(asked));
        for (const { lines, at } of points) {
          expect(baseTotal(lines).toFixed()).toBe("100");
          expect(lines.every((each) => each.amount.gt(0))).toBe(true);
          expect(at.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        }
      }),
    );
  });

  it("is only permuted by another order of its corners", () => {
    const orders = fc.constantFrom([1, 2, 0], [2, 0, 1], [1, 0, 2]);
    fc.assert(
      fc.property(corners(3), steps, orders, (three, steps, order) => {
        const others = order.map((at) => three[at] as BlendLine[]);
        const points = pointsOf({ kind: "triaxial", corners: three, steps });
        for (const other of pointsOf({ kind: "triaxial", corners: others, steps })) {
          const same = points.find(({ at }) =>
            order.every((corner, place) => at[corner] === other.at[place]),
          );
          expect(same && farthest(same, other)).toBeLessThan(3e-9);
        }
      }),
    );
  });

  it("stops at 500 points", () => {
    const triaxial = (steps: number) =>
      faultsOfBlend({ kind: "triaxial", corners: [pale, dark, far], steps });
    expect(triaxial(30)).toEqual([]);
    expect(triaxial(31).map(({ path }) => path)).toEqual(["steps"]);
  });
});

/** By how much two points differ in any line: whose the last digit is depends on who comes first. */
function farthest(one: BlendPoint<BlendLine>, other: BlendPoint<BlendLine>): number {
  const of = (lines: readonly BlendLine[], { key, part }: BlendLine) =>
    lines.find((each) => each.key === key && each.part === part)?.amount.toNumber() ?? 0;
  const all = [...one.lines, ...other.lines];
  return Math.max(...all.map((each) => Math.abs(of(one.lines, each) - of(other.lines, each))));
}

describe("a blend by volume of slurries", () => {
  // By hand: with S 2.65 a litre of 1.45 has 450 × 2.65/1.65 g dry and one of 1.60 has 600 × 2.65/1.65.
  // Half a litre of each is dry 3 : 4, so of whiting and quartz 300/7 and 400/7.
  it("brings more of the thicker slurry", () => {
    const slurries = [far, [line("quartz", 50)]];
    const weights = [
      basesInLitre(slurries[0] as BlendLine[], new Decimal("1.45")),
      basesInLitre(slurries[1] as BlendLine[], new Decimal("1.60")),
    ];
    const points = pointsOf({ kind: "line", corners: slurries, steps: 2, weights });
    expect(points.map(written)).toEqual([
      ["whiting 100"],
      ["whiting 42.857142857", "quartz 57.142857143"],
      ["quartz 100"],
    ]);
    expect(points[1]?.at).toEqual([0.5, 0.5]);
  });

  // By hand: 722.73 g dry in a litre, of which 100/104 base: 6.949 bases of 100 g.
  it("counts a slurry's additions into its dry weight", () => {
    const lines = [line("quartz", 50), line("tin", 2, "addition")];
    expect(basesInLitre(lines, new Decimal("1.45")).toNumber()).toBeCloseTo(6.9493, 4);
  });

  // By hand: 50/2.6 + 50/5.2 = 28.846 ml for 100 g.
  it("takes a mixture's dry gravity from masses and volumes, 2.65 where none is known", () => {
    const fifty = new Decimal(50);
    const { value, assumed } = dryGravityOf([
      { amount: fifty, drySpecificGravity: new Decimal("2.6") },
      { amount: fifty, drySpecificGravity: new Decimal("5.2") },
    ]);
    expect([value.toNumber(), assumed]).toEqual([expect.closeTo(3.46667, 5), 0]);
    expect(dryGravityOf([{ amount: fifty }])).toEqual({ value: new Decimal("2.65"), assumed: 1 });
  });
});
