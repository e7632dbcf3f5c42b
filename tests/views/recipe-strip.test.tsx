import { expect, it } from "vitest";
import { type RecipeStrip, RecipeStrips } from "../../views/parts/recipe-strip.tsx";

const slackWater: RecipeStrip = {
  slug: "slack-water",
  name: "Slack Water",
  maker: "Rukmini Vale",
  picture: undefined,
  standing: "approved",
  use: "functional",
  cones: { low: "5", high: "6" },
  tested: ["6"],
  surface: "gloss",
  atmosphere: "oxidation",
  revision: 4,
};

const strips = (...recipes: RecipeStrip[]) =>
  String(<RecipeStrips caption="Glazes of the library" recipes={recipes} />);

it("says that a recipe has no picture rather than leaving a gap", () => {
  const page = strips(slackWater);

  expect(page).toContain("no picture");
  expect(page).not.toContain("<img");
});

it("shows a tile's picture in a fixed size, described", () => {
  const sha256 = "ab".repeat(32);
  const page = strips({ ...slackWater, picture: { sha256, alt: "A pale green gloss" } });

  expect(page).toContain(`src="/photos/${sha256}/200"`);
  expect(page).toMatch(/<img[^>]*alt="A pale green gloss"[^>]*width="72"[^>]*height="72"/);
  expect(page).not.toContain("no picture");
});

it("escapes what a member wrote", () => {
  const page = strips({
    ...slackWater,
    name: '<script>alert("tide")</script>',
    maker: "O'Hare & <b>",
  });

  expect(page).not.toContain("<script>");
  expect(page).not.toContain("<b>");
  expect(page).toContain("&lt;script&gt;");
});

it("keeps the address of a recipe whole", () => {
  expect(strips({ ...slackWater, slug: 'a"/b' })).toContain('href="/recipes/a%22%2Fb"');
});

it("shows a column for stock only where any is told", () => {
  expect(strips(slackWater)).not.toContain("In stock");

  const page = strips({ ...slackWater, inStock: "6 litres" }, slackWater);
  expect(page).toContain("In stock");
  expect(page).toContain("6 litres");
  expect(page).toContain("not known");
});

it("stays a table with no recipes", () => {
  expect(strips()).toMatch(/<caption>Glazes of the library<\/caption>.*<tbody[^>]*><\/tbody>/s);
});
