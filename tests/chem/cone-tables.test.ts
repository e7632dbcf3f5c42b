import { describe, expect, it } from "vitest";
import { endPointsAt } from "../../src/chem/cone-end-point.ts";
import {
  coneTable,
  coneTableIds,
  selfSupporting,
  toCelsius,
  toFahrenheit,
} from "../../src/chem/cone-tables.ts";
import printed from "../reference/cone-temperatures.json" with { type: "json" };

type Printed = {
  table: string;
  cone: string;
  value: number | Record<string, number | null>;
  how: string | Record<string, string>;
};
const rows = (beginning: string) =>
  (printed as Printed[]).filter(({ table }) => table.startsWith(beginning));

const celsius = (id: (typeof coneTableIds)[number], cone: string, column = 0) =>
  coneTable(id).rows.find((row) => row.cone === cone)?.endPoints[column];

describe("the tables of end points", () => {
  // Edward Orton Jr. Ceramic Foundation, "Temperature Equivalents for Orton Pyrometric Cones (°C)",
  // chart C-022-14 (2016). Records from memory must be marked so, and are no check of a value.
  const current = rows("large self").filter(({ cone }) => !cone.includes("."));
  it.each(current)("hold the current chart's cone $cone as it is known", ({ cone, value, how }) => {
    for (const [column, rate] of ["15", "60", "150"].entries()) {
      const wanted = (value as Record<string, number | null>)[rate];
      const known = (how as Record<string, string>)[rate];
      const held = celsius("self-supporting", cone, column);
      if (wanted === null) expect(held).toBeNull();
      else if (known?.startsWith("looked up")) expect(held?.celsius).toBe(wanted);
      expect(held?.how === "from memory").toBe(known === "from memory");
    }
  });

  it("hold 36 cones of it, and no half cone from memory", () => {
    expect(current.length).toBe(36);
    expect(selfSupporting.rows.map(({ cone }) => cone)).toEqual(current.map(({ cone }) => cone));
  });

  // "Orton standard large cones", older edition at 150 °C/h, as reprinted.
  it("hold the older table as it was reprinted", () => {
    const older = rows("OLDER");
    expect(older.length).toBe(36);
    for (const { cone, value } of older)
      expect(celsius("older-large", cone)).toEqual({ celsius: value, how: "looked up" });
  });

  // H. Hecht, Tonindustrie-Zeitung 1896, in Dingler's Polytechnisches Journal 300 (1896), p. 288.
  it("hold Seger's cones as Hecht gave them", () => {
    const seger = rows("Seger-Kegel historical");
    expect(seger.length).toBe(58);
    for (const { cone, value } of seger)
      expect(celsius("seger-1896", cone)).toEqual({ celsius: value, how: "looked up" });
  });

  it("grow hotter from cone to cone, and with the rate", () => {
    for (const id of coneTableIds) {
      const { rates, rows: held } = coneTable(id);
      for (const column of rates.length === 0 ? [0] : rates.keys()) {
        const figures = held.flatMap(({ endPoints }) => endPoints[column]?.celsius ?? []);
        expect(figures).toEqual(figures.toSorted((a, b) => a - b));
        expect(new Set(figures).size).toBe(figures.length);
      }
      for (const { endPoints } of held) {
        const figures = endPoints.flatMap((endPoint) => endPoint?.celsius ?? []);
        expect(figures).toEqual(figures.toSorted((a, b) => a - b));
      }
    }
  });

  it("name their edition", () => {
    for (const id of coneTableIds) {
      expect(coneTable(id).id).toBe(id);
      expect(coneTable(id).source.length).toBeGreaterThan(30);
    }
  });
});

describe("an end point at a rate", () => {
  const at = (cone: string, rate: number) =>
    endPointsAt(selfSupporting, rate).find((each) => each.cone === cone);

  // By hand: 1222 + 21 × ln(100/60)/ln(150/60) = 1222 + 21 × 0.5575 = 1233.7.
  it("lies between the printed ones, in ln(rate)", () =>
    expect(at("6", 100)?.celsius).toBeCloseTo(1233.7, 1));

  it("is the nearest one outside, and says so", () => {
    expect(at("6", 400)).toEqual({ cone: "6", celsius: 1243, outside: true, remembered: false });
    expect(at("019", 5)).toEqual({ cone: "019", celsius: 656, outside: true, remembered: false });
    expect(at("022", 30)).toMatchObject({ celsius: 586, outside: true });
  });

  it("says where it rests on memory", () => {
    expect(at("6", 30)?.remembered).toBe(true);
    expect(at("6", 60)?.remembered).toBe(false);
    expect(at("019", 30)?.remembered).toBe(false);
    expect(at("12", 100)?.remembered).toBe(true);
  });

  it("is outside everywhere where the table has no rate", () =>
    expect(endPointsAt(coneTable("seger-1896"), 60).every(({ outside }) => outside)).toBe(true));
});

// Fixed points: water boils at 100 °C, 212 °F; −40 is the same in both.
it.each([
  [100, 212],
  [-40, -40],
  [0, 32],
])("%d °C is %d °F, and back", (celsiusOf, fahrenheit) => {
  expect(toFahrenheit(celsiusOf)).toBeCloseTo(fahrenheit, 10);
  expect(toCelsius(fahrenheit)).toBeCloseTo(celsiusOf, 10);
});
