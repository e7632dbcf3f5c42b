import type { Finding, Level } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";
import { type Oxide, oxidePlace } from "./oxides.ts";
import { type Rule, type RuleId, rules } from "./rules.ts";

/** A finding of a rule of the rules file: what was seen, then what to do next. */
export function found(
  rule: RuleId,
  seen: string,
  { level, ...figures }: { level?: Level; value?: number; limit?: number } = {},
): Finding {
  const { limit, next, source, ...data }: Rule = rules[rule];
  return {
    rule,
    level: level ?? data.level,
    says: `${seen} ${next}`,
    ...(limit === undefined ? {} : { limit }),
    ...figures,
    source,
  };
}

/** Weight percent of the fired glass; 0 where there is no glass. */
export const percentOfGlass = (melt: Melt, oxide: Oxide): number =>
  melt.glass > 0 ? (100 * (melt.masses[oxidePlace[oxide]] ?? 0)) / melt.glass : 0;

/** A figure as it stands in a sentence: three significant digits, and no powers of ten. */
export const spoken = (value: number): string =>
  value > 0 && value < 0.0001 ? "less than 0.0001" : String(Number(value.toPrecision(3)));
