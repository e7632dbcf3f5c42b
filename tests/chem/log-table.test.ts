import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import type { Reading } from "../../src/chem/cone-readings.ts";
import { pricePerUnit } from "../../src/chem/firing-cost.ts";
import { highestOf, logRows, stretchesOf } from "../../src/chem/log-table.ts";
import { contradictionsOf } from "../../src/chem/witness-agreement.ts";

const everyMinute = (from: number, to: number): Reading[] =>
  Array.from({ length: to - from + 1 }, (_, at) => [from + at, 20 + from + at]);

describe("a log in a table", () => {
  it("has the reading nearest to each even hour, in 24 rows or so", () => {
    expect(logRows(everyMinute(0, 600)).slice(0, 3)).toEqual([
      { hours: 0, celsius: 20 },
      { hours: 0.5, celsius: 50 },
      { hours: 1, celsius: 80 },
    ]);
    for (const minutes of [0, 59, 600, 1441, 20_000, 999_999]) {
      const readings: Reading[] = [
        [0, 20],
        [minutes, 900],
      ];
      expect(logRows(readings).length, String(minutes)).toBeLessThanOrEqual(25);
    }
  });

  it("has nothing where nothing was read", () => {
    const rows = logRows([...everyMinute(0, 60), ...everyMinute(300, 400)]);
    expect(rows.find(({ hours }) => hours === 3)?.celsius).toBeUndefined();
    expect(rows.find(({ hours }) => hours === 5)?.celsius).toBe(320);
  });
});

describe("the stretches of a log", () => {
  it.each<[string, Reading[], number]>([
    ["without a gap are one", everyMinute(0, 100), 1],
    ["with a pause of ten minutes are one", [...everyMinute(0, 50), ...everyMinute(60, 90)], 1],
    ["with a longer one are two", [...everyMinute(0, 50), ...everyMinute(61, 90)], 2],
    ["read every half hour are one", [0, 30, 60, 90].map((at): Reading => [at, at]), 1],
    ["without readings are none", [], 0],
  ])("%s", (_, readings, count) => {
    const stretches = stretchesOf(readings);
    expect(stretches).toHaveLength(count);
    expect(stretches.flat()).toEqual(readings);
  });
});

it("takes the highest reading at its first time", () => {
  expect(
    highestOf([
      [0, 5],
      [1, 9],
      [2, 9],
    ]),
  ).toEqual([1, 9]);
  expect(highestOf([])).toBeUndefined();
});

describe("a witness cone beside an estimate of cone 6, with 5 down and 7 up", () => {
  const estimate = { lower: "5", upper: "7" };
  it.each<[string, number, boolean]>([
    ["4", 170, false],
    ["4", 59, true],
    ["5", 90, false],
    ["5", 10, true],
    ["6", 0, false],
    ["6", 180, false],
    ["7", 59, false],
    ["7", 60, true],
    ["8", 130, true],
    ["04", 10, true],
  ])("cone %s bent by %i° contradicts: %s", (cone, bendDegrees, against) => {
    const found = contradictionsOf([{ cone, bendDegrees, place: "back" }], estimate);
    expect(found.map((one) => one.cone)).toEqual(against ? [cone] : []);
  });

  it("contradicts nothing above after a hold", () => {
    const flat = [{ cone: "9", bendDegrees: 180, place: "" }];
    expect(contradictionsOf(flat, { lower: "5", upper: null })).toEqual([]);
  });
});

it("has the price of a unit from the firing's, and none where nothing was used", () => {
  expect(pricePerUnit(new Decimal("16.24"), new Decimal("58"))?.toFixed()).toBe("0.28");
  expect(pricePerUnit(new Decimal("1"), new Decimal("0"))).toBeNull();
});
