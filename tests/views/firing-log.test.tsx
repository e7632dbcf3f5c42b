import { expect, it } from "vitest";
import type { Reading } from "../../src/chem/cone-readings.ts";
import { FiringLog } from "../../views/charts/firing-log.tsx";

const programme = [{ celsiusPerHour: 100, toCelsius: 620, holdMinutes: 0 }];

const placesOf = (html: string): number[][] =>
  [...html.matchAll(/points="([^"]+)"/g)].flatMap(([, points = ""]) =>
    points.split(" ").map((place) => place.split(",").map(Number)),
  );

it.each<[string, Reading[]]>([
  ["hotter and longer than it was set", [0, 300, 900].map((at): Reading => [at, at * 1.5])],
  ["below freezing", [0, 60, 120].map((at): Reading => [at, -40])],
  ["of one reading", [[0, 20]]],
  ["of years", [0, 2_000_000].map((at): Reading => [at, 1600])],
])("keeps a log %s within its frame", (_, drawn) => {
  for (const set of [programme, []]) {
    const html = String(<FiringLog drawn={drawn} programme={set} />);
    for (const [x = -1, y = -1] of placesOf(html)) {
      expect(x).toBeGreaterThanOrEqual(44);
      expect(x).toBeLessThanOrEqual(328);
      expect(y).toBeGreaterThanOrEqual(12);
      expect(y).toBeLessThanOrEqual(146);
    }
    expect(html.match(/<text/g)?.length).toBeLessThanOrEqual(18);
  }
});

it("tells in words what it shows, in both units", () => {
  const drawn: Reading[] = [
    [0, 20],
    [300, 620],
    [360, 500],
  ];
  expect(String(<FiringLog drawn={drawn} programme={programme} />)).toContain(
    "<desc>It began with 20 °C (68 °F) at 0 h 0 min, came to 620 °C (1148 °F) at 5 h 0 min at the highest, and the readings end with 500 °C (932 °F) at 6 h 0 min. It was set so. From 20 °C: 100 °C an hour up to 620 °C.",
  );
});
