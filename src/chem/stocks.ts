import { Decimal } from "decimal.js";
import { baseTotal, type Part } from "./lines.ts";
import { leastWeighed, type Weighing } from "./smallest-batch.ts";

type StockLine = { readonly key: string; readonly part: Part; readonly amount: Decimal };
type StockPoint<Line> = { n: number; lines: readonly Line[] };

/**
 * A colourant ground into a base powder, so that a scale which cannot weigh it weighs the mixture.
 * `takes` says of each point how many grams of the stock go in, and how many grams of the carrier
 * stay out for it, since they come with the stock.
 */
export type Stock<Line> = {
  colourant: Line;
  carrier: Line;
  colourantGrams: Decimal;
  carrierGrams: Decimal;
  takes: Take[];
};

type Take = { n: number; grams: Decimal; leaveOut: Decimal };

/** A colourant that no stock here makes weighable at this batch, and at which points. */
export type NoStock<Line> = { colourant: Line; points: number[] };

export type Stocks<Line> = { stocks: Stock<Line>[]; without: NoStock<Line>[] };

/** Parts of stock to one of colourant, as people dilute. */
const dilutions = [10, 100, 1000] as const;

/**
 * The stocks that a trial needs at so many grams of base a point, for each addition that some point
 * has too little of for the scale. The carrier is the base powder that all of those points have
 * most of, so that no base is changed by it. Each point takes of the least dilution that serves it.
 *
 * Worked number: on 0.1 g with 2 % a base of 100 g with 0.25 g of a colourant needs a stock of ten:
 * 2.5 g of it, of which 2.25 g are carrier. Made from 3 g of colourant in 27 g, it is enough for 12.
 */
export function stocksFor<Line extends StockLine>(
  points: readonly StockPoint<Line>[],
  weighing: Weighing & { grams: Decimal },
): Stocks<Line> {
  const made: Stocks<Line> = { stocks: [], without: [] };
  const least = leastWeighed("addition", weighing);
  // Two colourants of one point come with the same carrier: together they leave out no more than it has.
  const leftOut = new Map<number, Decimal>();
  for (const [, needs] of tooLittle(points, weighing)) {
    const { line: colourant } = needs[0] as Need<Line>;
    const carrier = carrierOf(needs);
    const byDilution = new Map<number, Take[]>();
    const without: number[] = [];
    for (const [at, { n, grams }] of needs.entries()) {
      const before = leftOut.get(n) ?? new Decimal(0);
      const room = (carrier?.grams[at] ?? new Decimal(0)).minus(before);
      const parts = dilutions.find(
        (each) => grams.times(each).gte(least) && grams.times(each - 1).lte(room),
      );
      if (parts === undefined) {
        without.push(n);
        continue;
      }
      const take = { n, grams: grams.times(parts), leaveOut: grams.times(parts - 1) };
      leftOut.set(n, before.plus(take.leaveOut));
      byDilution.set(parts, [...(byDilution.get(parts) ?? []), take]);
    }
    if (without.length > 0) made.without.push({ colourant, points: without });
    if (!carrier) continue;
    for (const [parts, takes] of byDilution)
      made.stocks.push(stockOf({ colourant, carrier: carrier.line, parts, takes, least }));
  }
  return made;
}

/** `perPart` is the grams of one part of the point's base. */
type Need<Line> = {
  n: number;
  line: Line;
  grams: Decimal;
  base: readonly Line[];
  perPart: Decimal;
};

function tooLittle<Line extends StockLine>(
  points: readonly StockPoint<Line>[],
  weighing: Weighing & { grams: Decimal },
): Map<string, Need<Line>[]> {
  const needs = new Map<string, Need<Line>[]>();
  const least = leastWeighed("addition", weighing);
  for (const { n, lines } of points) {
    const perPart = weighing.grams.div(baseTotal(lines));
    const base = lines.filter(({ part }) => part === "base");
    for (const line of lines) {
      const grams = line.amount.times(perPart);
      if (line.part === "base" || grams.gte(least)) continue;
      needs.set(line.key, [...(needs.get(line.key) ?? []), { n, line, grams, base, perPart }]);
    }
  }
  return needs;
}

function stockOf<Line>(of: {
  colourant: Line;
  carrier: Line;
  parts: number;
  takes: Take[];
  least: Decimal;
}): Stock<Line> {
  const { colourant, carrier, parts, takes, least } = of;
  const wanted = takes.reduce((sum, { grams }) => sum.plus(grams), new Decimal(0)).div(parts);
  // A fifth over, since some of it stays in the mortar.
  const colourantGrams = Decimal.max(wanted.times("1.2"), least).ceil();
  return {
    ...{ colourant, carrier, colourantGrams, takes },
    carrierGrams: colourantGrams.times(parts - 1),
  };
}

/** The base powder of which the point that has least of it has most. */
function carrierOf<Line extends StockLine>(needs: readonly Need<Line>[]) {
  let best: { line: Line; grams: Decimal[]; least: Decimal } | undefined;
  for (const line of needs[0]?.base ?? []) {
    const grams = needs.map(({ base, perPart }) =>
      (base.find(({ key }) => key === line.key)?.amount ?? new Decimal(0)).times(perPart),
    );
    const least = Decimal.min(...grams);
    if (!best || least.gt(best.least)) best = { line, grams, least };
  }
  return best;
}
