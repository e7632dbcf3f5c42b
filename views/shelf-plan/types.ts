/** A line of a base or an addition, parts of a base of 100. */
export type Line = { material: string; name: string; amount: string };

export type Mix = {
  recipe: string;
  name: string;
  lines: readonly Line[];
  additions: readonly Line[];
  worst: number;
};

export type Named = { recipe: string; name: string };
export type Wanted = { material: string; name: string; recipes: readonly string[] };

export type Point = { size: number; reached: number; bound: number; proven: boolean };

export type Cost = {
  packs: readonly {
    material: string;
    name: string;
    packGrams: string | null;
    packPrice: string | null;
    currency: string | null;
  }[];
  known: readonly { amount: string; currency: string }[];
  without: readonly string[];
  testsOfEach: number | null;
  bucketsOfEach: number | null;
  recipes: readonly (Named & { tests: number | null; buckets: number | null })[];
};

export type Plan = {
  materials: readonly string[];
  reached: readonly Mix[];
  missed: readonly (Named & { because: string })[];
  unused: readonly string[];
  stillToBeHad: readonly Wanted[];
  proven: boolean;
  bound: number;
  stopped?: "steps" | "clock";
  seconds: number;
  curve?: readonly Point[];
  cost?: Cost;
  budget?: { amount: string; currency: string; says: string };
};

export type Reach = {
  asTheyAre: readonly Named[];
  restated: readonly Mix[];
  withOneMore: readonly (Named & { materials: readonly { material: string; name: string }[] })[];
  beyond: readonly (Named & { because: string })[];
  opens: readonly { material: string; name: string; recipes: readonly Named[] }[];
  stillToBeHad: readonly Wanted[];
  stopped?: "clock";
};

export type Limits = { candidates: number; recipes: number };
export type Choices = {
  recipes: readonly { slug: string; name: string }[];
  recipeCount: number;
  materials: readonly { slug: string; name: string; kind: string }[];
  limits: Limits;
  member: boolean;
};
