import { expect, it } from "vitest";
import { FiringRamp } from "../../views/charts/firing-ramp.tsx";
import { witnessWords } from "../../views/firings/firing-words.ts";

const drawing = (toCelsius: number, celsiusPerHour = 100) =>
  String(<FiringRamp programme={[{ celsiusPerHour, toCelsius, holdMinutes: 0 }]} />);

const cornersOf = (html: string): number[][] =>
  (/points="([^"]+)"/.exec(html)?.[1] ?? "")
    .split(" ")
    .map((corner) => corner.split(",").map(Number));

it.each([
  [620, 100],
  [1400, 1],
  [1222, 2000],
  [20, 60],
  [0, 60],
])("keeps a programme to %i °C at %i °C an hour within its frame", (toCelsius, rate) => {
  const html = drawing(toCelsius, rate);
  for (const [x = -1, y = -1] of cornersOf(html)) {
    expect(x).toBeGreaterThanOrEqual(44);
    expect(x).toBeLessThanOrEqual(328);
    expect(y).toBeGreaterThanOrEqual(12);
    expect(y).toBeLessThanOrEqual(146);
  }
  expect(html.match(/<text/g)?.length).toBeLessThanOrEqual(18);
});

it("draws a hotter end higher up", () => {
  const [first, last] = cornersOf(drawing(620));
  expect(last?.[1]).toBeLessThan(first?.[1] ?? 0);
  expect(last?.[0]).toBeGreaterThan(first?.[0] ?? 0);
});

it("tells in words what it shows", () => {
  expect(drawing(620)).toContain(
    "<desc>From 20 °C: 100 °C an hour up to 620 °C. 6 h 0 min in all.</desc>",
  );
});

it("says where a cone stood only where another of its name stood elsewhere", () => {
  const six = { cone: "6", bendDegrees: 90, place: "middle shelf" } as const;
  const seven = { cone: "7", bendDegrees: 10, place: "middle shelf" } as const;
  const corner = { cone: "7", bendDegrees: 170, place: "back corner" } as const;
  expect(witnessWords([six, seven, corner])).toBe(
    "cone 6 down, cone 7 not reached (middle shelf), cone 7 past it (back corner)",
  );
});
