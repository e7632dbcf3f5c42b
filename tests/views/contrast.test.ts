import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

const tokens = readFileSync(new URL("../../public/tokens.css", import.meta.url), "utf8");
const [light = "", dark = ""] = tokens.split("prefers-color-scheme: dark");

type Rgb = readonly [number, number, number];

const colour = (scheme: string, token: string): Rgb => {
  const hex = new RegExp(`--${token}: #([0-9a-f]{6})`).exec(scheme)?.[1];
  if (!hex) throw new Error(`No --${token} here`);
  const channel = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [channel(0), channel(2), channel(4)];
};

// W3C, Web Content Accessibility Guidelines 2.2, "relative luminance" and "contrast ratio".
const luminance = (rgb: Rgb): number => {
  const [red, green, blue] = rgb.map((part) =>
    part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4,
  ) as unknown as Rgb;
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};

const contrast = (a: Rgb, b: Rgb): number => {
  const [darker = 0, lighter = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (lighter + 0.05) / (darker + 0.05);
};

it("measures white on black as the guidelines do", () => {
  expect(contrast([1, 1, 1], [0, 0, 0])).toBeCloseTo(21, 5);
});

// WCAG 2.2, 1.4.3: text 4.5 to 1.
it.each([
  ["ink", "paper"],
  ["soft", "paper"],
  ["act", "paper"],
  ["ink", "field"],
  ["soft", "field"],
  ["act-ink", "act"],
])("keeps %s readable on %s in both schemes", (text, ground) => {
  for (const scheme of [light, dark]) {
    expect(contrast(colour(scheme, text), colour(scheme, ground))).toBeGreaterThanOrEqual(4.5);
  }
});

// WCAG 2.2, 1.4.11: edges of controls and parts of drawings 3 to 1.
it.each(["paper", "field"])(
  "keeps the edge of a control visible on %s in both schemes",
  (ground) => {
    for (const scheme of [light, dark]) {
      expect(contrast(colour(scheme, "line"), colour(scheme, ground))).toBeGreaterThanOrEqual(3);
    }
  },
);

it("has the same colours in the dark that somebody chose as in the device's own", () => {
  const [, byDevice = "", byChoice = ""] = tokens.split(
    /prefers-color-scheme: dark|data-theme="dark"/,
  );
  const colours = (scheme: string) => [...scheme.matchAll(/--[\w-]+: #[0-9a-f]{6}/g)].map(String);
  expect(colours(byDevice).length).toBeGreaterThan(8);
  expect(colours(byChoice)).toEqual(colours(byDevice));
});
