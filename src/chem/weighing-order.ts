import type { Decimal } from "decimal.js";
import { additionsTotal, type WeighedLine } from "./lines.ts";

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
