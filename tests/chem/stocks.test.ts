import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { bringBaseTo } from "../../src/chem/exact-base.ts";
import type { Part } from "../../src/chem/lines.ts";
import { leastWeighed, smallestBatch } from "../../src/chem/smallest-batch.ts";
import { stocksFor } from "../../src/chem/stocks.ts";
import { weighingOrder } from "../../src/chem/weighing-order.ts";

const line = (key: string, amount: Decimal.Value, part: Part = "base") => ({
  key,
  part,
  amount: new Decimal(amount),
});
const weighing = { scaleGrams: new Decimal("0.1"), errorPercent: new Decimal(2) };
const base = [line("quartz", 60), line("whiting", 40)];
const point = (n: number, copper: Decimal.Value) => ({
  n,
  lines: [...base, line("copper", copper, "addition")],
});
const stocks = (points: ReturnType<typeof point>[], grams: Decimal.Value) =>
  stocksFor(points, { ...weighing, grams: new Decimal(grams) });

describe("the smallest batch that a scale can weigh", () => {
  // By hand: half a step of 0.05 g is 2 % of 2.5 g, a whole one of 0.1 g is 2 % of 5 g.
  it("is where the smallest line is off by no more than the error", () => {
    expect(leastWeighed("addition", weighing).toNumber()).toBe(2.5);
    expect(leastWeighed("base", weighing).toNumber()).toBe(5);
    expect(smallestBatch(point(1, "0.5").lines, weighing)?.toNumber()).toBe(500);
    expect(smallestBatch(base, weighing)?.toNumber()).toBe(12.5);
    expect(smallestBatch([], weighing)).toBeNull();
  });

  it("is a whole number of steps", () => {
    const third = [line("quartz", 2), line("whiting", 1)];
    expect(smallestBatch(third, weighing)?.toNumber()).toBe(15);
    expect(smallestBatch([line("quartz", 7), line("whiting", 1)], weighing)?.toNumber()).toBe(40);
    expect(smallestBatch([...base, line("tin", 3, "addition")], weighing)?.toFixed()).toBe("83.4");
  });
});

describe("stocks", () => {
  it("are not needed where every addition can be weighed", () => {
    expect(stocks([point(1, 3)], 100)).toEqual({
      stocks: [],
      without: [],
    });
  });

  // By hand: 0.25 g in ten is 2.5 g with 2.25 g of carrier; 0.3 g with a fifth over, at least
  // 2.5 g, in whole grams 3 g in 27 g.
  it("dilute a colourant in the powder there is most of", () => {
    expect(stocks([point(1, "0.25")], 100).stocks).toMatchObject([
      {
        colourant: { key: "copper" },
        carrier: { key: "quartz" },
        colourantGrams: new Decimal(3),
        carrierGrams: new Decimal(27),
        takes: [{ n: 1, grams: new Decimal("2.5"), leaveOut: new Decimal("2.25") }],
      },
    ]);
  });

  it("dilute each point by as little as serves it, with a stock for each dilution", () => {
    const made = stocks([point(1, "0.05"), point(2, "1")], 100).stocks;
    expect(made.map(({ takes }) => takes.map(({ n, grams }) => [n, grams.toNumber()]))).toEqual([
      [[1, 5]],
      [[2, 10]],
    ]);
  });

  it("bring exactly the colourant that is wanted, and take its carrier out of the base", () => {
    for (const { colourantGrams, carrierGrams, takes } of stocks(
      [point(1, "0.1"), point(2, "0.2"), point(3, "0.4"), point(4, "2")],
      100,
    ).stocks)
      for (const { n, grams, leaveOut } of takes) {
        const share = colourantGrams.div(colourantGrams.plus(carrierGrams));
        const wanted = { 1: 0.1, 2: 0.2, 3: 0.4, 4: 2 }[n];
        expect(grams.times(share).toNumber()).toBeCloseTo(wanted ?? 0, 12);
        expect(grams.minus(leaveOut).toNumber()).toBeCloseTo(wanted ?? 0, 12);
      }
  });

  it("leave out no more of the carrier than a point has, however many colourants it has", () => {
    const two = {
      n: 1,
      lines: [...base, line("copper", "2.4", "addition"), line("tin", "2.3", "addition")],
    };
    // At 100 g, 24 g of a stock of copper leave out 21.6 g of quartz and 23 g of tin's 20.7 g: of 60.
    expect(stocks([two], 100).stocks).toHaveLength(2);
    const poor = {
      n: 1,
      lines: [line("quartz", 40), line("talc", 30), line("whiting", 30), ...two.lines.slice(2)],
    };
    expect(stocks([poor], 100)).toMatchObject({
      stocks: [{ colourant: { key: "copper" } }],
      without: [{ colourant: { key: "tin" }, points: [1] }],
    });
  });

  it("are refused where a point has no room for the carrier", () => {
    const thin = { n: 1, lines: [...base, line("copper", "0.5", "addition")] };
    // At 2 g of base 0.01 g needs a stock of 1000, of which 10 g go into 1.2 g of quartz.
    expect(stocks([thin], 2)).toMatchObject({ stocks: [], without: [{ points: [1] }] });
  });
});

describe("the order to weigh in", () => {
  it("goes from little on top to much, and keeps the order of equals", () => {
    const order = weighingOrder([point(1, 4), point(2, 0), point(3, 2), point(4, 0)]);
    expect(order.map(({ n }) => n)).toEqual([2, 4, 3, 1]);
  });
});

describe("a base with fewer decimals", () => {
  it("still totals 100, and loses what becomes nothing", () => {
    const thirds = ["33.333333333", "33.333333334", "33.333333333"].map((each) => line(each, each));
    const dust = line("cobalt", "0.001", "addition");
    const kept = bringBaseTo([...thirds, line("tin", "1.005", "addition"), dust], 2);
    expect(kept.map(({ amount }) => amount.toFixed())).toEqual(["33.33", "33.34", "33.33", "1.01"]);
  });
});
