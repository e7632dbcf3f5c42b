import { Decimal } from "decimal.js";
import type { Fault } from "./analysis.ts";
import { mergedLines, type PartOfBlend } from "./blend-lines.ts";
import type { Part } from "./lines.ts";

/** A corner's line; lines of equal `key` (one powder by one analysis) and part are one. */
export type BlendLine = { readonly key: string; readonly part: Part; readonly amount: Decimal };

export const blendKinds = ["ladder", "line", "triaxial", "grid"] as const;
export type BlendKind = (typeof blendKinds)[number];
export type Spacing = "even" | "geometric";

/** One addition climbing on one base, in percent of that base. */
export type Ladder<Line> = {
  kind: "ladder";
  base: readonly Line[];
  /** What climbs; its own amount is not read. */
  addition: Line;
  from: Decimal;
  to: Decimal;
  steps: number;
  spacing: Spacing;
};

/**
 * Two to four corners. `steps` counts intervals, for a grid those across and those down. `weights`
 * are what a share of each corner brings of its base, equal where shares are of dry weight.
 */
export type CornerBlend<Line> = {
  corners: readonly (readonly Line[])[];
  weights?: readonly Decimal[] | undefined;
} & ({ kind: "line" | "triaxial"; steps: number } | { kind: "grid"; steps: [number, number] });

export type Blend<Line> = Ladder<Line> | CornerBlend<Line>;

/** `at` is the share of each corner, or the one percentage of a ladder's addition. */
export type BlendPoint<Line> = { n: number; at: number[]; lines: Line[] };

export const mostPoints = 500;

/** How many points a blend of so many intervals has. */
export function pointCount(blend: { kind: BlendKind; steps: number | [number, number] }): number {
  const [across, down] = typeof blend.steps === "number" ? [blend.steps, blend.steps] : blend.steps;
  switch (blend.kind) {
    case "ladder":
    case "line":
      return across + 1;
    case "triaxial":
      return ((across + 1) * (across + 2)) / 2;
    case "grid":
      return (across + 1) * (down + 1);
  }
}

/** What is wrong with the figures of a blend; its lines are for `faultsOfRequest`. */
export function faultsOfBlend(blend: Blend<BlendLine>): Fault[] {
  const faults: Fault[] = [];
  const count = pointCount(blend);
  if (count > mostPoints) {
    faults.push({
      path: "steps",
      says: `That would be ${count} points; at most ${mostPoints} are worked out. Take fewer steps.`,
    });
  }
  if (blend.kind !== "ladder") return faults;
  const least = blend.spacing === "geometric" ? "more than 0" : "from 0";
  const fits = (end: Decimal) =>
    end.lte(mostPercent) && (blend.spacing === "geometric" ? end.gt(0) : end.gte(0));
  for (const path of ["from", "to"] as const) {
    if (!fits(blend[path]))
      faults.push({
        path,
        says: `The addition is ${least} and at most ${mostPercent} % of the base.`,
      });
  }
  return faults;
}

const mostPercent = 1000;

/**
 * The points of a blend, numbered from 1, each with a base of exactly 100 and its additions on top.
 * Equal powder and part are one line; a line of 0 is left out. Amounts have nine decimals: base
 * lines by largest remainder so that they add up to 100, additions to the nearest.
 *
 * The order: a ladder from `from` to `to`; a line from its first corner to its second; a triaxial
 * in rows from its first corner down, each row from the second corner's side to the third's; a grid
 * row by row, its corners being upper left, upper right, lower left and lower right.
 *
 * A geometric ladder is from × (to/from)^(i/steps).
 *
 * Worked number: half of whiting 40 with quartz 60 and half of whiting 20 with quartz 80 and tin
 * oxide 5 is whiting 30, quartz 70 and tin oxide 2.5.
 */
export function pointsOf<Line extends BlendLine>(blend: Blend<Line>): BlendPoint<Line>[] {
  if (blend.kind === "ladder") return rungsOf(blend);
  const { corners, weights } = blend;
  return placesOf(blend).map(({ of, over }, index) => {
    const parts = corners.map((lines, corner): PartOfBlend<Line> => {
      const weight = weights?.[corner] ?? new Decimal(1);
      return { lines, share: new Exact(of[corner] ?? 0).times(weight) };
    });
    return { n: index + 1, at: of.map((part) => part / over), lines: mergedLines(parts) };
  });
}

const Exact = Decimal.clone({ precision: 80 });

/** Shares as whole numbers of one whole, so that nothing is rounded before the amounts are. */
type Place = { of: number[]; over: number };

function placesOf(blend: CornerBlend<unknown>): Place[] {
  const places: Place[] = [];
  switch (blend.kind) {
    case "line":
      for (let i = 0; i <= blend.steps; i++)
        places.push({ of: [blend.steps - i, i], over: blend.steps });
      return places;
    case "triaxial":
      for (let row = 0; row <= blend.steps; row++)
        for (let i = 0; i <= row; i++)
          places.push({ of: [blend.steps - row, row - i, i], over: blend.steps });
      return places;
    case "grid": {
      const [across, down] = blend.steps;
      for (let j = 0; j <= down; j++)
        for (let i = 0; i <= across; i++)
          places.push({
            of: [(across - i) * (down - j), i * (down - j), (across - i) * j, i * j],
            over: across * down,
          });
      return places;
    }
  }
}

function rungsOf<Line extends BlendLine>(ladder: Ladder<Line>): BlendPoint<Line>[] {
  return Array.from({ length: ladder.steps + 1 }, (_, i) => {
    const percent = rung(ladder, i);
    const lines = mergedLines([{ lines: ladder.base, share: new Exact(1) }], {
      line: ladder.addition,
      percent,
    });
    return { n: i + 1, at: [percent.toNumber()], lines };
  });
}

function rung({ from, to, steps, spacing }: Ladder<unknown>, i: number): Decimal {
  // Both ends are what was asked for, not what a root makes of them.
  if (i === 0) return from;
  if (i === steps) return to;
  const exact =
    spacing === "even"
      ? new Exact(to).minus(from).times(i).div(steps).plus(from)
      : new Exact(to).div(from).pow(new Exact(i).div(steps)).times(from);
  return new Decimal(exact.toDecimalPlaces(9, Decimal.ROUND_HALF_UP));
}
