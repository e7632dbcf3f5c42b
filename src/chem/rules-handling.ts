import type { Level } from "./chemistry-types.ts";
import type { Oxide } from "./oxides.ts";

/** An oxide of a powder as weighed, in percent: at least `from`, and below `below` where given. */
export type PowderTest = {
  readonly oxide: Oxide | "loss";
  readonly from: number;
  readonly below?: number;
};

/**
 * What a powder does to people in the room, before it is a glaze. It applies to a line whose name
 * has one of the words, or whose analysis passes every test of one of the `analyses`.
 */
export type HandlingRule = {
  readonly id: string;
  readonly looksAt: string;
  readonly words: readonly string[];
  /** Names that hold one of the words and mean something else. */
  readonly not?: readonly string[];
  readonly analyses: readonly (readonly PowderTest[])[];
  readonly level: Level;
  readonly source: string;
  readonly seen: string;
  readonly next: string;
};

const source = "common practice, no source";
const sheet = "the supplier's data sheet and your local rules come first";

/** Every handling rule; thresholds are percent of the powder as weighed. */
export const handlingRules: readonly HandlingRule[] = [
  {
    id: "handling-barium",
    looksAt: "lines of barium carbonate",
    words: ["barium carbonate", "witherite"],
    analyses: [[{ oxide: "BaO", from: 70 }]],
    level: "caution",
    source,
    seen: "a poison when swallowed or breathed in",
    next: `Keep it locked away, weigh it with gloves and a fitted respirator, out of children's classes; ${sheet}.`,
  },
  {
    id: "handling-lead-cadmium",
    looksAt: "lines of lead or cadmium",
    words: ["lead", "litharge", "galena", "cadmium"],
    not: [
      "lead[- ](?:free|less)",
      "(?:without|no|non|free of|free from)[ -](?:lead|cadmium)",
      "cadmium[- ]free",
    ],
    analyses: [[{ oxide: "PbO", from: 1 }], [{ oxide: "CdO", from: 1 }]],
    level: "caution",
    source,
    seen: "a poison that builds up in the body",
    next: `Do not weigh it in a shared room, nor anybody who is or may be pregnant; ${sheet}.`,
  },
  {
    id: "handling-metals",
    looksAt: "lines of cobalt, copper, chromium, manganese, nickel or vanadium",
    words: ["cobalt", "copper", "chrom(?:e|ium)", "manganese", "nickel", "vanadium"],
    analyses: (["CoO", "CuO", "Cr2O3", "MnO", "NiO", "V2O5"] as const).map((oxide) => [
      { oxide, from: 5 },
    ]),
    level: "caution",
    source,
    seen: "a metal compound that harms when breathed in or swallowed",
    next: `Weigh it with gloves and a fitted respirator, out of children's classes; ${sheet}.`,
  },
  {
    id: "handling-soluble",
    looksAt: "soda ash, pearl ash, borax, boric acid, lithium carbonate",
    words: [
      ...["soda ash", "sodium carbonate", "sodium bicarbonate", "pearl ash", "potassium carbonate"],
      ...["borax", "boric acid", "boracic acid", "lithium carbonate"],
    ],
    not: ["borax frit", "calcined borax frit"],
    analyses: [
      [{ oxide: "Na2O", from: 40 }],
      [{ oxide: "K2O", from: 40 }],
      [{ oxide: "Li2O", from: 30 }],
      [
        { oxide: "B2O3", from: 30 },
        { oxide: "loss", from: 15 },
        { oxide: "CaO", from: 0, below: 10 },
      ],
    ],
    level: "caution",
    source,
    seen: "soluble in water: it goes through skin with the water of the bucket, and lithium and borates harm when swallowed",
    next: "Wear gloves, mark the bucket as holding it, pour no water off, and collect waste glaze and wash water.",
  },
  {
    id: "handling-caustic",
    looksAt: "quicklime, slaked lime, wood and plant ash",
    words: ["quick ?lime", "slaked lime", "hydrated lime", "calcium hydroxide", "ash(?:es)?"],
    not: ["soda ash", "pearl ash", "bone ash", "volcanic ash"],
    analyses: [[{ oxide: "CaO", from: 60 }]],
    level: "caution",
    source,
    seen: "caustic: wet, it burns skin and eyes",
    next: "Wear gloves and goggles, and have water for the eyes at hand.",
  },
  {
    id: "handling-asbestos",
    looksAt: "talc and vermiculite",
    words: ["talc", "steatite", "soapstone", "vermiculite"],
    analyses: [],
    level: "caution",
    source,
    seen: "a mineral that some deposits carry asbestos with",
    next: "Ask the supplier for a sheet that says it is free of asbestos.",
  },
  {
    id: "handling-dust",
    looksAt: "lines that hold silica",
    words: ["silica", "quartz", "flint"],
    analyses: [[{ oxide: "SiO2", from: 1 }]],
    level: "note",
    source,
    seen: "a powder whose dust holds silica, and breathed in for years it scars the lungs",
    next: "Weigh under extraction or with a fitted respirator, add powder to water, and damp-mop: never sweep.",
  },
];
