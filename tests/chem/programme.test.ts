import { expect, it } from "vitest";
import { rampOf } from "../../src/chem/programme.ts";

it("draws a climb and a hold from room temperature", () => {
  expect(rampOf([{ celsiusPerHour: 150, toCelsius: 620, holdMinutes: 30 }])).toEqual([
    { hours: 0, celsius: 20 },
    { hours: 4, celsius: 620 },
    { hours: 4.5, celsius: 620 },
  ]);
});

it("goes down as well as up, at the rate given", () => {
  const cooled = rampOf([
    { celsiusPerHour: 100, toCelsius: 1220, holdMinutes: 0 },
    { celsiusPerHour: 60, toCelsius: 1100, holdMinutes: 0 },
  ]);
  expect(cooled).toEqual([
    { hours: 0, celsius: 20 },
    { hours: 12, celsius: 1220 },
    { hours: 14, celsius: 1100 },
  ]);
});

it("never goes back in time", () => {
  const ramp = rampOf([
    { celsiusPerHour: 90, toCelsius: 600, holdMinutes: 15 },
    { celsiusPerHour: 200, toCelsius: 600, holdMinutes: 0 },
    { celsiusPerHour: 300, toCelsius: 200, holdMinutes: 10 },
    { celsiusPerHour: 50, toCelsius: 900, holdMinutes: 1 },
  ]);
  const hours = ramp.map((moment) => moment.hours);
  expect(hours).toEqual([...hours].sort((a, b) => a - b));
});

it("stands at room temperature where nothing is programmed", () => {
  expect(rampOf([])).toEqual([{ hours: 0, celsius: 20 }]);
});
