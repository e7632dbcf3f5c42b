/** What somebody makes, and whether food, drink or lips touch it. `says` is why, where it surprises. */
export type Making = { key: string; name: string; food: boolean; says: string };

export const makings: readonly Making[] = [
  {
    ...{ key: "mug-or-bowl", name: "Mug, bowl or plate", food: true },
    says: "Food, drink or lips touch it.",
  },
  {
    ...{ key: "jar-or-pet-bowl", name: "Lidded jar, spoon rest or pet bowl", food: true },
    says: "It counts as ware for food: what lies in it is eaten or licked.",
  },
  {
    ...{ key: "planter-or-vase", name: "Planter or vase", food: false },
    says: "Nobody eats or drinks from it. A jug that might be drunk from counts as a mug.",
  },
  {
    ...{ key: "tile", name: "Wall tile", food: false },
    says: "It hangs on a wall. A tile that food is put on counts as a plate.",
  },
  {
    ...{ key: "sculpture", name: "Sculpture or lamp", food: false },
    says: "It is looked at. One that serves for food counts as a bowl.",
  },
];

export type LeftOutWhy =
  | "decorative only"
  | "draft"
  | "in review"
  | "needs another look"
  | "another cone"
  | "withdrawn";

const many: Readonly<Record<LeftOutWhy, [one: string, more: string]>> = {
  "decorative only": [
    "is decorative only: not where food, drink or lips touch",
    "are decorative only: not where food, drink or lips touch",
  ],
  draft: ["is a draft: nobody has reviewed it", "are drafts: nobody has reviewed them"],
  "in review": [
    "is in review: nobody has approved it yet",
    "are in review: nobody has approved them yet",
  ],
  "needs another look": [
    "needs another look: what its approval rested on has changed",
    "need another look: what their approval rested on has changed",
  ],
  "another cone": ["is for another cone", "are for another cone"],
  withdrawn: ["was withdrawn", "were withdrawn"],
};

/** Why some glazes are not shown: "3 are decorative only: not where food, drink or lips touch." */
export const leftOutSays = ({ why, recipes }: { why: LeftOutWhy; recipes: number }): string =>
  `${recipes} ${many[why][recipes === 1 ? 0 : 1]}.`;

/** The page of the guide that says more of a reason. */
export const leftOutGuide: Readonly<Record<LeftOutWhy, string>> = {
  "decorative only": "approval#decorative-only",
  draft: "approval#words",
  "in review": "approval#words",
  "needs another look": "approval#ends",
  "another cone": "cones#order",
  withdrawn: "approval#words",
};
