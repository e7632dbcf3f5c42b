import { type Chemistry, type ChemistryRequest, type Quantity, workOut } from "./chemistry.ts";
import { isOxide, type Oxide } from "./oxides.ts";
import { powderOf } from "./powder.ts";
import { moved, type Unknown, unknownsOf } from "./unknowns.ts";

/** How much each line brings of something; the shares of one thing add up to 1. */
export type Brought = { of: Oxide | "loss"; lines: { line: number; share: number }[] };

/** What one figure of one analysis does to a number's ±: its share of the variance. */
export type Doubt = { key: string; of: Oxide | "loss"; share: number };

/** Where a computed number comes from. */
export type Account = {
  name: string;
  quantity: Quantity;
  unit: string;
  definition: string;
  brings: Brought[];
  /** Largest first, adding up to 1; empty where the number has no ±. */
  doubts: Doubt[];
};

type Numbered = {
  unit: string;
  definition: string;
  of: (Oxide | "loss")[];
  read: (of: Chemistry) => Quantity | null;
};

/**
 * Where a number of a chemistry comes from, or undefined where it has none of that name: `unity.SiO2`,
 * `weight.SiO2`, `mole.SiO2`, `loss`, `silica-to-alumina`, `alkali-share`, `expansion.appen`.
 *
 * The doubts are the squares of what each figure's ± does to the number (central differences, first
 * order), as shares of their sum: the root of that sum is the number's ±. Weighing does not count.
 *
 * Worked example: in a glaze of feldspar, whiting and quartz all of `unity.CaO` comes from the whiting,
 * and its ± is what the analyses of whiting and feldspar leave open.
 */
export function accountOf(request: ChemistryRequest, name: string): Account | undefined {
  const numbered = numberedAs(name);
  const plain = { ...request, grams: undefined, scaleGrams: undefined };
  const chemistry = workOut({ ...plain, explain: true });
  const quantity = numbered?.read(chemistry);
  if (!numbered || !quantity) return undefined;
  const { unit, definition, of, read } = numbered;
  return {
    name,
    quantity,
    unit,
    definition,
    brings: of.flatMap((each) => broughtBy(plain, chemistry, each)),
    doubts: doubtsOf(plain, (asked) => read(workOut(asked))?.value ?? 0),
  };
}

const alkalis: Oxide[] = ["Li2O", "Na2O", "K2O"];

function numberedAs(name: string): Numbered | undefined {
  const [kind = "", which = ""] = name.split(".");
  const oxide = isOxide(which) ? which : undefined;
  if (oxide && kind === "unity") {
    return {
      unit: "moles for each mole of flux",
      definition: `The moles of ${oxide} in the glass, divided by the moles of all its fluxes together.`,
      of: [oxide],
      read: ({ unity }) => unity?.[oxide] ?? null,
    };
  }
  if (oxide && (kind === "weight" || kind === "mole")) {
    const weight = kind === "weight";
    return {
      unit: weight ? "percent of the glass by weight" : "percent of the glass by moles",
      definition: `How much of the fired glass is ${oxide}, counted by ${weight ? "weight" : "moles"}.`,
      of: [oxide],
      read: ({ weightPercent, molePercent }) =>
        (weight ? weightPercent : molePercent)[oxide] ?? null,
    };
  }
  if (kind === "expansion" && which) {
    return {
      unit: "10⁻⁶/K, linear",
      definition:
        "The sum over the glass's oxides of how much there is of each, times the model's factor for it.",
      of: [],
      read: ({ expansion }) => quantityOf(expansion.find(({ model }) => model === which)),
    };
  }
  return simple.get(name);
}

const simple = new Map<string, Numbered>(
  Object.entries({
    loss: {
      unit: "percent of the batch as weighed",
      definition: "What leaves in the kiln, in percent of the weight of the batch.",
      of: ["loss"],
      read: ({ lossOnIgnition }: Chemistry) => lossOnIgnition,
    },
    "silica-to-alumina": {
      unit: "moles for each mole",
      definition: "The moles of SiO2 divided by the moles of Al2O3. Boron is counted with neither.",
      of: ["SiO2", "Al2O3"],
      read: ({ ratios }: Chemistry) => ratios.silicaToAlumina,
    },
    "alkali-share": {
      unit: "of the fluxes, by moles",
      definition:
        "The moles of Li2O, Na2O and K2O, divided by the moles of all fluxes of the unity formula.",
      of: alkalis,
      read: ({ ratios }: Chemistry) => ratios.alkaliShare,
    },
  }),
);

const quantityOf = (model: Chemistry["expansion"][number] | undefined): Quantity | null =>
  !model || model.value === null || model.plusMinus === null
    ? null
    : { value: model.value, plusMinus: model.plusMinus };

function broughtBy(
  request: ChemistryRequest,
  { explain }: Chemistry,
  of: Oxide | "loss",
): Brought[] {
  if (of !== "loss") {
    const lines = explain?.[of] ?? [];
    return lines.length === 0
      ? []
      : [{ of, lines: lines.map(({ line, share }) => ({ line, share })) }];
  }
  const lost = request.lines.map(({ analysis, amount }, line) => ({
    line,
    loss: analysis ? (powderOf(analysis).loss * amount.toNumber()) / 100 : 0,
  }));
  const all = lost.reduce((sum, { loss }) => sum + loss, 0);
  if (all === 0) return [];
  const lines = lost
    .filter(({ loss }) => loss !== 0)
    .map(({ line, loss }) => ({ line, share: loss / all }));
  return [{ of, lines }];
}

function doubtsOf(request: ChemistryRequest, value: (asked: ChemistryRequest) => number): Doubt[] {
  const effects = unknownsOf(request.lines).map((unknown: Unknown) => {
    const { key, of, plusMinus } = unknown;
    const up = value(moved(request, unknown, plusMinus));
    const down = value(moved(request, unknown, plusMinus.neg()));
    return { key, of, square: ((up - down) / 2) ** 2 };
  });
  const all = effects.reduce((sum, { square }) => sum + square, 0);
  if (all === 0) return [];
  return effects
    .map(({ key, of, square }) => ({ key, of, share: square / all }))
    .filter(({ share }) => share > 1e-12)
    .sort((a, b) => b.share - a.share || (a.key < b.key ? -1 : 1));
}
