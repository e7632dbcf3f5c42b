import { Decimal } from "decimal.js";
import { type Coverage, coverageOf, shoppingFor } from "../chem/family-shelf.ts";
import type { FoundFamily, WholeFamily } from "../db/families.ts";

/** Grams of base in a test. */
const testGrams = new Decimal(100);

/** A family as the list tells it. */
export const familyEntryJson = ({
  slug,
  name,
  intro,
  addedBy,
  addedAt,
  ...family
}: FoundFamily) => ({
  slug,
  name,
  intro,
  addedBy,
  addedAt: addedAt.toISOString(),
  recipes: family.recipes,
  leftOut: family.leftOut,
});

/** What to have in the house for a test of each recipe and for a bucket of each. */
export type FamilyShopping = {
  testGrams: string;
  bucketKilograms: string;
  lines: { material: string; name: string; testGrams: string; bucketGrams: string }[];
};

/** A family with all that its page shows: percents of base and grams are decimal strings. */
export function familyJson(family: WholeFamily, kilograms: Decimal) {
  const coverage = coverageOf(
    family.recipes.map(({ slug, revision }) => ({
      label: slug,
      lines: revision.lines.map(({ part, amount, material }) => ({
        part,
        amount,
        label: material.slug,
        name: material.name,
      })),
    })),
  );
  const sold = new Map(
    family.recipes.flatMap(({ revision }) =>
      revision.lines.map(({ material }) => [material.slug, material.stillSold] as const),
    ),
  );
  return {
    slug: family.slug,
    name: family.name,
    intro: family.intro,
    addedBy: family.addedBy,
    addedAt: family.addedAt.toISOString(),
    recipes: family.recipes.map(({ slug, name, owner, standing, revision }) => ({
      slug,
      name,
      owner,
      number: revision.number,
      use: revision.use,
      cones: revision.cones,
      surface: revision.surface,
      standing,
    })),
    leftOut: family.leftOut,
    shelf: coverage.filter(({ part }) => part === "base").map(named),
    coverage: coverage.map(({ part, percents, ...material }) => ({
      ...named(material),
      part,
      percents: percents.map(({ recipe, percent }) => ({
        recipe,
        percent: percent.toDecimalPlaces(2, Decimal.ROUND_HALF_UP).toFixed(),
      })),
    })),
    shopping: shoppingJson(coverage, kilograms),
    noLongerSold: shoppingFor(coverage, testGrams)
      .filter(({ label }) => sold.get(label) === false)
      .map(named),
  };
}

const named = ({ label, name }: { label: string; name: string }) => ({ material: label, name });

/** Grams are rounded up, so that what is bought is never too little: to 0.1 g, and to 1 g for buckets. */
function shoppingJson(coverage: readonly Coverage[], kilograms: Decimal): FamilyShopping {
  const buckets = new Map(
    shoppingFor(coverage, kilograms.times(1000)).map(({ label, grams }) => [label, grams]),
  );
  return {
    testGrams: testGrams.toFixed(),
    bucketKilograms: kilograms.toFixed(),
    lines: shoppingFor(coverage, testGrams).map(({ label, name, grams }) => ({
      ...named({ label, name }),
      testGrams: grams.toDecimalPlaces(1, Decimal.ROUND_UP).toFixed(1),
      bucketGrams: (buckets.get(label) ?? new Decimal(0))
        .toDecimalPlaces(0, Decimal.ROUND_UP)
        .toFixed(),
    })),
  };
}
