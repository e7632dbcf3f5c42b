import type { Finding, Level, Quantity } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";
import { type Oxide, oxidePlace } from "./oxides.ts";
import { quotient } from "./quotient.ts";
import { type Rule, type RuleId, rules } from "./rules.ts";
import { only, perGram } from "./unity-base.ts";

type Figures = { level?: Level; limit?: number; elements?: string[]; source?: string } & (
  | { value?: number }
  | Quantity
);

/**
 * A finding of a rule of the rules file: what was seen, then what to do next, or what a decorative
 * glaze's maker hears instead.
 */
export function found(
  rule: RuleId,
  seen: string,
  figures: Figures = {},
  use?: "decorative" | undefined,
): Finding {
  const { limit, next, decorative, source, level }: Rule = rules[rule];
  return {
    rule,
    level,
    says: `${seen} ${(use && decorative) ?? next}`,
    ...(limit === undefined ? {} : { limit }),
    source,
    ...figures,
  };
}

/** How a value with its ± stands to a limit. `doubtful`: the ± reaches over the limit. */
export type Judged = { beyond: boolean; doubtful: boolean };

/** The value decides; the ± only says whether these analyses can tell it from the limit. */
export function judge(of: Quantity, beyond: "over" | "under", limit: number): Judged {
  const past = beyond === "over" ? of.value - limit : limit - of.value;
  return { beyond: past > 0, doubtful: of.plusMinus > 0 && Math.abs(past) <= of.plusMinus };
}

/** Words for a limit that the ± reaches over. */
export const cannotBeTold = "which side of it this is cannot be told from these analyses";

const percentOf = new Map<Oxide, Float64Array>();

/** Weight percent of the fired glass with its ±; 0 ± 0 where there is no glass or none of it. */
export function percentOfGlass(melt: Melt, oxide: Oxide): Quantity {
  const place = oxidePlace[oxide];
  const none = { value: 0, plusMinus: 0 };
  if (!melt.present.includes(place) || melt.glass <= 0) return none;
  let above = percentOf.get(oxide);
  if (!above) {
    above = only([oxide], perGram).map((each) => 100 * each);
    percentOf.set(oxide, above);
  }
  return quotient(melt, above, perGram) ?? none;
}

/** A figure as it stands in a sentence: three significant digits, and no powers of ten. */
export const spoken = (value: number): string =>
  value > 0 && value < 0.0001 ? "less than 0.0001" : String(Number(value.toPrecision(3)));

/** A figure with its ± as it stands in a sentence: `4.32 ± 0.14`. */
export const spokenWith = ({ value, plusMinus }: Quantity): string =>
  `${spoken(value)} ± ${plusMinus > 0 && plusMinus < 0.0001 ? "less than 0.0001" : Number(plusMinus.toPrecision(2))}`;
