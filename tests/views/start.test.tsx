import { expect, it } from "vitest";
import { StartAnswer } from "../../views/start/answer.tsx";
import { makings } from "../../views/start/makings.ts";
import type { ShownGlaze } from "../../views/start/types.ts";

const glaze = (n: number): ShownGlaze => ({
  ...{ slug: `glaze-${n}`, name: `Glaze ${n}`, owner: { name: "Rukmini Vale" }, number: 1 },
  ...{ for: "functional", cones: { low: "6", high: "6" }, atmosphere: "oxidation" },
  ...{ surface: "gloss", tested: [], tile: null, buckets: [], notNow: [] },
});

const answerWith = (making: string, approved: number) =>
  String(
    <StartAnswer
      answered={{
        making: makings.find(({ key }) => key === making) ?? makings[0]!,
        ...{ cone: "6", body: null, bodies: [], inStock: null, leftOut: [] },
        approved: Array.from({ length: approved }, (_, n) => glaze(n)),
      }}
    />,
  );
const shown = (page: string) => [...page.matchAll(/href="\/recipes\/glaze-\d+\//g)].length;

it.each([
  ["mug-or-bowl", "/recipes?standing=approved&amp;cone=6&amp;use=functional"],
  ["sculpture", "/recipes?standing=approved&amp;cone=6"],
])(
  "shows as many glazes for a %s as one looks through, and leads to the rest",
  (making, library) => {
    const page = answerWith(making, 65);
    expect(shown(page)).toBe(60);
    expect(page).toContain("5 more are approved for this at that cone");
    expect(page).toContain(`href="${library}"`);
  },
);

it("shows all of a few, and leads nowhere else", () => {
  const page = answerWith("mug-or-bowl", 60);
  expect(shown(page)).toBe(60);
  expect(page).not.toContain("narrow the library");
});
