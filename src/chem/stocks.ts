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
  takes: { n: number; grams: Decimal; leaveOut: Decimal }[];
};

/** A colourant that no stock here makes weighable at this batch, and at which points. */
export type NoStock<Line> = { colourant: Line; points: number[] };

export type Stocks<Line> = { stocks: Stock<Line>[]; without: NoStock<Line>[] };

/** Parts of stock to one of colourant, as people dilute. */
const dilutions = [10, 100, 1000] as const;

/**
 * The stocks that a trial needs at so many grams of base a point: one for each addition that some
 * point has too little of for the scale. The carrier is the base powder that all of those points
 * have most of, so that no base is changed by it; the least dilution that serves is taken.
 *
 * Worked number: on 0.1 g with 2 % a base of 100 g with 0.25 g of a colourant needs a stock of ten:
 * 2.5 g of it, of which 2.25 g are carrier. Made from 3 g of colourant in 27 g, it is enough for 12.
 */
export function stocksFor<Line extends StockLine>(
  points: readonly StockPoint<Line>[],
  weighing: Weighing & { grams: Decimal },
): Stocks<Line> {
  const made: Stocks<Line> = { stocks: [], without: [] };
  for (const [, needs] of tooLittle(points, weighing)) {
    const stock = stockOf(needs, weighing);
    const colourant = (needs[0] as Need<Line>).line;
    if (stock) made.stocks.push(stock);
    else made.without.push({ colourant, points: needs.map(({ n }) => n) });
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

function stockOf<Line extends StockLine>(
  needs: readonly Need<Line>[],
  weighing: Weighing,
): Stock<Line> | undefined {
  const least = leastWeighed("addition", weighing);
  const smallest = Decimal.min(...needs.map(({ grams }) => grams));
  const carrier = carrierOf(needs);
  const parts = dilutions.find((each) => smallest.times(each).gte(least));
  if (!carrier || parts === undefined) return undefined;
  const takes = needs.map(({ n, grams }) => ({
    n,
    grams: grams.times(parts),
    leaveOut: grams.times(parts - 1),
  }));
  const hasRoom = takes.every(({ leaveOut }, at) => leaveOut.lte(carrier.grams[at] ?? 0));
  if (!hasRoom) return undefined;
  const wanted = needs.reduce((sum, { grams }) => sum.plus(grams), new Decimal(0));
  // A fifth over, since some of it stays in the mortar.
  const colourantGrams = Decimal.max(wanted.times("1.2"), least).ceil();
  return {
    colourant: (needs[0] as Need<Line>).line,
    carrier: carrier.line,
    colourantGrams,
    carrierGrams: colourantGrams.times(parts - 1),
    takes,
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
