import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { daysCounted, lotAge, stockState, usedPercent } from "../../src/chem/stock-line.ts";

const powder = (given: Record<string, number | null> = {}) => {
  const { usable = 1800, used = 4800, days = 84, ownLine = null, weeks = 6 } = given;
  return stockState({
    usable: new Decimal(usable ?? 0),
    used: new Decimal(used ?? 0),
    days: days ?? 84,
    ownLine: ownLine === null ? null : new Decimal(ownLine),
    weeks: weeks ?? 6,
  });
};

// Common practice, no source; the figures are by hand.
describe("how far a powder goes", () => {
  it("follows from its use: 400 g a week want 2400 g for six weeks", () => {
    const { perWeek, line, lineIs, isLow, lastsWeeks } = powder();
    expect([perWeek, line, lastsWeeks].map((number) => number?.toNumber())).toEqual([
      400, 2400, 4.5,
    ]);
    expect([lineIs, isLow]).toEqual(["from use", true]);
  });

  it.each([
    [2399.9999, true],
    [2400, false],
  ])("is low under the line and not on it: %d g, %s", (usable, isLow) => {
    expect(powder({ usable }).isLow).toBe(isLow);
  });

  // 1000 g in 30 days are 1400 g for six weeks, though a week's use has no end of decimals.
  it.each([
    [1399.9999, true],
    [1400, false],
  ])("does not round a week's use before it judges: %d g, %s", (usable, isLow) => {
    expect(powder({ used: 1000, days: 30, usable }).isLow).toBe(isLow);
  });

  it("is held against the line that was drawn, whatever its use", () => {
    expect(powder({ ownLine: 1800 })).toMatchObject({ lineIs: "own", isLow: false });
    expect(powder({ ownLine: 1801, used: 0 }).isLow).toBe(true);
    expect(powder({ ownLine: 0, usable: -5 }).isLow).toBe(true);
  });

  it("says nothing of how long where nothing is used, and is then not low", () => {
    for (const used of [0, -300])
      expect(powder({ used, usable: 0 })).toMatchObject({ lastsWeeks: null, isLow: false });
  });

  it("lasts no time where less than nothing is left", () => {
    expect(powder({ usable: -20 }).lastsWeeks?.toNumber()).toBe(0);
  });
});

describe("the days that use is counted over", () => {
  const since = new Date("2026-03-01T12:00:00Z");
  it.each([
    ["2026-03-01T12:00:00Z", 7],
    ["2026-03-31T12:00:00Z", 30],
    ["2026-03-31T12:00:01Z", 31],
    ["2027-03-01T12:00:00Z", 84],
  ])("on %s are %d", (now, days) => {
    expect(daysCounted(since, new Date(now))).toBe(days);
  });
});

describe("a lot's age", () => {
  it.each([
    [null, "good"],
    ["2026-03-30", "expired"],
    ["2026-03-31", "soon"],
    ["2026-04-30", "soon"],
    ["2026-05-01", "good"],
  ])("best before %s is %s on 31 March", (bestBefore, age) => {
    expect(lotAge(bestBefore, "2026-03-31")).toBe(age);
  });
});

describe("how much of a lot is used", () => {
  it.each([
    [5000, 1250, 75],
    [5000, 5200, 0],
    [5000, -10, 100],
    [0, 5, undefined],
  ])("of %d g with %d left is %s percent", (bought, left, percent) => {
    expect(usedPercent(new Decimal(bought), new Decimal(left))?.toNumber()).toBe(percent);
  });
});
