import type { Finding, Level, Quantity, Use } from "./chemistry-types.ts";
import { cannotBeTold, found, judge, percentOfGlass, spoken, spokenWith } from "./finding.ts";
import type { Melt } from "./melt.ts";
import { alkalis, oxidePlace } from "./oxides.ts";
import { quotient } from "./quotient.ts";
import { leachList } from "./rules.ts";
import { type MeasuredRule, measuredRules } from "./rules-measured.ts";
import { molesOfBase, molesPerGram, only, perGram } from "./unity-base.ts";

/**
 * What the rules of one measure against one limit have to say. The value decides the level; where
 * only the ± reaches over the limit, a note says that these analyses cannot tell. Unity formula and
 * alkali share are over the fluxes alone here, whatever the request's conventions.
 */
export function measuredFindings(melt: Melt, use: Use | undefined): Finding[] {
  return measuredRules.flatMap((rule) => {
    const of = applies(rule, melt) ? measured(rule, melt) : null;
    if (!of) return [];
    const { beyond, doubtful } = judge(of, rule.beyond, rule.limit);
    if (!beyond && !doubtful) return [];
    const unit = rule.measure.of === "weight percent" ? " % of the fired glass" : "";
    const percent = unit === "" ? "" : " %";
    const figure = `${rule.name}: ${spokenWith(of)}${unit}, limit ${rule.limit}${percent}`;
    const seen = beyond
      ? `${figure}: ${rule.means}.${doubtful ? ` At this ± ${cannotBeTold}.` : ""}`
      : `${figure}; ${cannotBeTold}.`;
    return [
      {
        rule: rule.id,
        level: beyond ? levelOf(rule, use) : "note",
        says: `${seen} ${rule.next}`,
        ...of,
        limit: rule.limit,
        source: rule.source,
      },
    ];
  });
}

const levelOf = (rule: MeasuredRule, use: Use | undefined): Level =>
  use === "decorative" ? (rule.decorative ?? rule.level) : rule.level;

function applies({ measure, with: beside }: MeasuredRule, melt: Melt): boolean {
  if (beside && percentOfGlass(melt, beside.oxide).value < beside.from) return false;
  if (measure.of === "alkali share") return true;
  return measure.oxides.some((oxide) => melt.present.includes(oxidePlace[oxide]));
}

const baseMoles = molesOfBase("fluxes", "Fe2O3");

/** By rule: the coefficients above and below the line, made once. */
const coefficients = new Map(
  measuredRules.map((rule) => {
    const { measure } = rule;
    const [above, below] =
      measure.of === "weight percent"
        ? [only(measure.oxides, perGram).map((each) => 100 * each), perGram]
        : measure.of === "unity"
          ? [only(measure.oxides, molesPerGram), baseMoles]
          : [only(alkalis, molesPerGram), baseMoles];
    return [rule, { above, below }] as const;
  }),
);

function measured(rule: MeasuredRule, melt: Melt): Quantity | null {
  const pair = coefficients.get(rule);
  return pair ? quotient(melt, pair.above, pair.below) : null;
}

/**
 * Each element whose leaching a laboratory has to look at: over its level in the glass, and as a
 * note where only the ± reaches over it. A decorative glaze hears of it as a note.
 */
export function leachFindings(melt: Melt, use: Use | undefined): Finding[] {
  return leachList.flatMap(({ element, name, oxide, level: limit }) => {
    const of = percentOfGlass(melt, oxide);
    const { beyond, doubtful } = judge(of, "over", limit);
    if (!beyond && !doubtful) return [];
    const figure = `${oxide} is ${spokenWith(of)} % of the fired glass`;
    const seen = beyond
      ? `${figure}, over ${spoken(limit)} %; whether ${name} leaches cannot be worked out.${doubtful ? ` At this ± ${cannotBeTold}.` : ""}`
      : `${figure}, limit ${spoken(limit)} %; ${cannotBeTold}.`;
    const level: Level = beyond && use !== "decorative" ? "caution" : "note";
    const figures = { level, ...of, limit, elements: [element] };
    return [found("leach-report", seen, figures, use === "decorative" ? use : undefined)];
  });
}
