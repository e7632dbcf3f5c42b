import { expect, it } from "vitest";
import { Standing, type StandingIs, Use } from "../../views/parts/standing.tsx";

const standings: readonly StandingIs[] = [
  "draft",
  "in review",
  "approved",
  "needs another look",
  "withdrawn",
];

it("gives each standing its word and a frame of its own", () => {
  const pages = standings.map((is) => String(<Standing is={is} />));
  const frames = pages.map((page) => /standing-frame (standing-[a-z-]+)/.exec(page)?.[1]);

  expect(new Set(frames).size).toBe(standings.length);
  for (const [index, is] of standings.entries()) expect(pages[index]).toContain(`>${is}</span>`);
});

it("says what a revision was approved for", () => {
  expect(String(<Standing is="approved" for="decorative" />)).toContain("as decorative only");
  expect(String(<Standing is="approved" for="functional" />)).toContain("for functional ware");
});

it.each([true, false])(
  "never shows the decorative mark without what it rules out, long: %s",
  (long) => {
    const mark = String(<Use use="decorative" long={long} />);

    expect(mark).toContain("Decorative only");
    for (const touched of ["food", "drink", "lips", "cutlery"]) expect(mark).toContain(touched);
  },
);

it("keeps the rim, spoon rests, lidded jars, pet bowls and crazed glazes out in full", () => {
  const mark = String(<Use use="decorative" long />);

  for (const ruledOut of ["20 mm", "spoon rests", "lidded jars", "pet bowls", "crazes"]) {
    expect(mark).toContain(ruledOut);
  }
});

it("says of functional that meant is not proven, and promises nothing", () => {
  const mark = String(<Use use="functional" long />);

  expect(mark).toContain("Meant is not proven");
  expect(mark).not.toMatch(/\bsafe\b/i);
});
