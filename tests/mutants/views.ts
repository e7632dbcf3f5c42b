import type { Mutant } from "./mutant.ts";

/** Bugs of what is shown. */
export const viewMutants: readonly Mutant[] = [
  {
    name: "not-for-food-left-out",
    file: "views/parts/cautions.tsx",
    before: `{use === "decorative" ? (`,
    after: `{use !== "decorative" ? (`,
    breaks: "A decorative glaze says what a functional one does, and the other way round.",
    tests: ["tests/views/cautions.test.tsx"],
  },
  {
    name: "mixing-without-dust",
    file: "views/mixes/before.tsx",
    before: "<DustCaution />",
    after: "",
    breaks: "The page that is read while powders are weighed says nothing of their dust.",
    tests: ["tests/routes/mixes.test.ts"],
  },
  {
    name: "sheet-without-dust",
    file: "views/recipes/batch-sheet.tsx",
    before: `{known.has("dust") ? null : <DustCaution />}`,
    after: "",
    breaks: "A printed batch sheet says nothing of dust.",
    tests: ["tests/routes/batch-sheet.test.ts"],
  },
  {
    name: "more-decimals-than-are-known",
    file: "views/parts/quantity.tsx",
    before: "Math.max(1 - leading, 0)",
    after: "Math.max(2 - leading, 0)",
    breaks: "Numbers are printed to a digit that nobody knows.",
    tests: ["tests/views/quantity.test.tsx"],
  },
  {
    name: "degrees-cut-off",
    file: "views/parts/degrees.ts",
    before: "const rounded = Math.round(value);",
    after: "const rounded = Math.trunc(value);",
    breaks: "Temperatures are cut off and not rounded, a degree too low.",
    tests: ["tests/routes/reading-pages.test.ts", "tests/views/cone-ruler.test.tsx"],
  },
  {
    name: "small-is-nothing",
    file: "views/parts/quantity.tsx",
    before: "if (value === 0 || /[1-9]/.test(text)) return text;",
    after: "return text;",
    breaks: "A trace of something is printed as none of it.",
    tests: ["tests/views/quantity.test.tsx"],
  },
];
