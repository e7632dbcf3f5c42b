import type { Decimal } from "decimal.js";
import { additionsTotal, type Part, type WeighedLine } from "./lines.ts";

/**
 * The order to weigh points in so that little has to be washed: those with the least on top first,
 * since what is left of a pale point in the mortar harms a dark one less than the other way round.
 * Points of equal additions keep their order.
 */
export function weighingOrder<Point extends { lines: readonly WeighedLine[] }>(
  points: readonly Point[],
): Point[] {
  const onTop = new Map<Point, Decimal>(
    points.map((point) => [point, additionsTotal(point.lines)]),
  );
  return [...points].sort((a, b) => onTop.get(a)?.comparedTo(onTop.get(b) ?? 0) ?? 0);
}

/**
 * The order to weigh the lines of one batch in: the base before its additions, and of each the
 * heaviest first, so that what is easily lost falls on a full bucket. Equal ones keep their order.
 */
export const linesToWeigh = <Line extends { part: Part; grams: Decimal }>(
  lines: readonly Line[],
): Line[] =>
  (["base", "addition"] as const).flatMap((part) =>
    lines.filter((line) => line.part === part).sort((a, b) => b.grams.comparedTo(a.grams)),
  );
