export const testKinds = [
  "acid",
  "alkali",
  "dishwasher",
  "thermal shock",
  "microwave",
  "knife",
  "leach",
] as const;

export type TestKind = (typeof testKinds)[number];

type KindWords = {
  name: string;
  /** How it is usually done. Common practice: no standard is quoted. */
  usually: string;
  shows: string;
  cannot: string;
};

/** What each test is, what it can show and what it cannot. */
export const kindWords: Readonly<Record<TestKind, KindWords>> = {
  acid: {
    name: "Acid test",
    usually:
      "A slice of lemon, or a cloth wetted with vinegar, lies on half of the tile overnight under cling film. Rinse it, dry it, and hold both halves to the light.",
    shows: "Whether kitchen acid takes gloss or colour from the surface.",
    cannot:
      "How much of anything went into the acid: metals leave without a mark. It is never a leach test.",
  },
  alkali: {
    name: "Alkali test",
    usually:
      "The tile stands half in hot washing soda, about 50 g to the litre, for some hours, kept well below the boil. Wear gloves and goggles.",
    shows: "Whether washing takes gloss or colour from the surface.",
    cannot: "What comes out of the glaze, and how it stands up to acid.",
  },
  dishwasher: {
    name: "Dishwasher test",
    usually:
      "So many cycles with the ordinary detergent, fifty or more, beside a like tile that stays on the shelf. Say how many.",
    shows: "Whether the surface goes dull or loses colour in daily washing.",
    cannot: "Years of washing, other detergents, and what comes out of the glaze.",
  },
  "thermal shock": {
    name: "Thermal shock test",
    usually:
      "Boiling water, then ice water, in turn, several times; then ink rubbed over the glaze to find cracks, and a look again after some weeks.",
    shows: "Whether the glaze crazes, or the glaze or pot breaks, on this body.",
    cannot:
      "That it never will: crazing can come months later, and another body or a thicker coat is another matter.",
  },
  microwave: {
    name: "Microwave test",
    usually:
      "The dry piece stands in the oven beside a cup of water for a minute. It should stay cool, without sparks.",
    shows: "Whether the body holds water, or the glaze holds metal enough to spark.",
    cannot: "Anything about food: it says nothing of how durable the glaze is.",
  },
  knife: {
    name: "Knife test",
    usually:
      "A steel knife and a spoon are drawn across the glaze, as at table; then the marks are scrubbed.",
    shows: "Whether cutlery leaves marks, and whether these wash off.",
    cannot: "How it stands up to acid, to washing, or what comes out of the glaze.",
  },
  leach: {
    name: "Leach test",
    usually:
      "A laboratory fills the fired piece with acid, as its method says, and measures what came out. Put the figures here as the report prints them.",
    shows: "How much of the elements named came out of the pieces sent in.",
    cannot:
      "Anything of an element that is not in it, or of another body, firing or batch than the report's.",
  },
};

/** Said beside every usual method. */
export const commonPractice = "Common practice: no standard is quoted for it.";
