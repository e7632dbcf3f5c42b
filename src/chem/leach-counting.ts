import { Decimal } from "decimal.js";
import type { LeachFigure } from "./leach.ts";
import type { LeachLimit } from "./leach-limits.ts";

/** How many specimens a rule of six asks for, and how many further ones forgive one that is over. */
const asked = 6;
const further = 3;
const forgiven = 1.5;

const fold = (text: string): string => text.trim().toLowerCase();

/** What the figures for one element say beside one limit. */
export type Found = {
  is: "within" | "over" | "cannot tell";
  /** Some figure of the report is above the limit's, whatever the rule makes of that. */
  above: boolean;
  says: string;
};

export const cannot = (says: string, above = false): Found => ({ is: "cannot tell", above, says });

/** Between what an element was at least and at most; `open` where only a detection limit over the limit is known. */
export type Specimen = { least: Decimal; most: Decimal; open: boolean };

/** The highest figure of each specimen that is told from the others. */
export function specimensOf(figures: readonly LeachFigure[], limit: Decimal): Specimen[] {
  const named = new Map<string, Specimen>();
  for (const { specimen, qualifier, value } of figures) {
    const key = fold(specimen);
    const before = named.get(key) ?? { least: zero, most: zero, open: false };
    named.set(key, {
      least: Decimal.max(before.least, qualifier === "=" ? value : zero),
      most: Decimal.max(before.most, value),
      open: before.open || (qualifier === "<" && value.gt(limit)),
    });
  }
  return [...named.values()];
}

const zero = new Decimal(0);

const within: Found = {
  is: "within",
  above: false,
  says: "Within this limit, as printed, for this article class.",
};
const over = (says: string): Found => ({ is: "over", above: true, says });
const unresolved = "A figure is given only as below a detection limit that is above this limit.";

type Rule = (specimens: readonly Specimen[], limit: Decimal, above: boolean) => Found;

/** What each way of counting makes of some specimens; `above` where one is over the limit. */
export const byRule: Readonly<Record<LeachLimit["aggregate"], Rule>> = {
  "any of six": (specimens, _, above) => {
    if (above) return over("Over this limit: any one specimen of six counts, and one is over.");
    if (specimens.some(({ open }) => open)) return cannot(unresolved);
    return specimens.length < asked ? tooFew(specimens) : within;
  },
  "mean of six": (specimens, limit) => {
    if (specimens.length < asked) return tooFew(specimens);
    if (meanOf(specimens, "least").gt(limit)) return over("Over this limit: the mean is over it.");
    return meanOf(specimens, "most").gt(limit) ? cannot(unresolved) : within;
  },
  each: (specimens, limit, above) => {
    if (!above) return specimens.some(({ open }) => open) ? cannot(unresolved) : within;
    if (specimens.some(({ least }) => least.gt(limit.times(forgiven))))
      return over("Over this limit: a specimen is over it by more than half.");
    const others = withoutHighest(specimens);
    if (others.length < further)
      return cannot(
        "A specimen is over this limit by half at most: by the rule at least three further like articles decide, and the report has fewer.",
      );
    if (meanOf(others, "least").gt(limit))
      return over("Over this limit: a specimen is, and the mean of the others is too.");
    if (others.some(({ open }) => open) || meanOf(others, "most").gt(limit))
      return cannot(unresolved);
    return within;
  },
  "not held": (specimens, limit, above) =>
    above && specimens.every(({ least }) => least.gt(limit))
      ? over("Over this limit: every specimen is, however the rule counts them.")
      : cannot(
          `How many specimens this rule asks for, and whether their mean counts, is not held here.${above ? " A specimen is above its figure." : ""}`,
        ),
};

const tooFew = ({ length }: readonly Specimen[]): Found =>
  cannot(
    `The rule asks for six specimens; the report tells ${length === 1 ? "one" : length} apart by name.`,
  );

const meanOf = (specimens: readonly Specimen[], bound: "least" | "most"): Decimal =>
  Decimal.sum(...specimens.map((specimen) => specimen[bound])).div(specimens.length);

const withoutHighest = (specimens: readonly Specimen[]): Specimen[] =>
  [...specimens].sort((a, b) => b.least.comparedTo(a.least)).slice(1);
