import { Decimal } from "decimal.js";
import { byRule, cannot, type Found, specimensOf } from "./leach-counting.ts";
import {
  type Jurisdiction,
  jurisdictions,
  type LeachLimit,
  type LimitedElement,
  leachLimits,
} from "./leach-limits.ts";

/** A figure as a laboratory's report prints it. */
export type LeachFigure = {
  element: string;
  qualifier: "=" | "<";
  value: Decimal;
  unit: string;
  specimen: string;
};

/** What a report says beside one printed limit. `limit` is null where none is for its class of article. */
export type LeachJudgement = Found & {
  jurisdiction: Jurisdiction;
  element: LimitedElement;
  limit: LeachLimit | null;
};

/**
 * Holds the figures of a leach report against the limits that the studio's jurisdictions print for
 * the report's class of article, each by the rule's own way of counting specimens.
 *
 * Nothing is converted: a milligram to the litre is the same as a microgram to the millilitre by
 * definition, and every other unit is another one. What was found below a detection limit that is
 * itself above the rule's limit says nothing.
 *
 * Worked number: cups at 0.4 and 0.6 µg/ml of lead are over the 0.5 of a rule by which any one of six
 * counts; six plates at 2, 2, 2, 2, 2 and 4 are within the 3.0 of one by which their mean counts.
 */
export function judgeLeach(
  results: readonly LeachFigure[],
  {
    jurisdictions: chosen,
    articleClass,
  }: { jurisdictions: readonly string[]; articleClass: string },
): LeachJudgement[] {
  const named = fold(articleClass);
  return jurisdictions
    .filter(({ id }) => chosen.includes(id))
    .flatMap((jurisdiction) =>
      limitedElements.flatMap((element) => {
        const figures = results.filter((result) => result.element === element);
        const printed = leachLimits.filter(
          (limit) => limit.jurisdiction === jurisdiction.id && limit.element === element,
        );
        const limit = printed.find((each) => isFor(each, named));
        if (limit) return { jurisdiction, element, limit, ...against(limit, figures) };
        if (figures.length === 0) return [];
        const says = printed.length === 0 ? noneFor(element) : noClass(articleClass, printed);
        return { jurisdiction, element, limit: null, ...cannot(says) };
      }),
    );
}

/**
 * Whether a report that somebody calls passed has a figure that speaks against that: over a limit, or
 * above one whose rule cannot be applied to it.
 */
export const speaksAgainstPassing = ({ is, above }: LeachJudgement): boolean =>
  is === "over" || (above && is !== "within");

const limitedElements = ["Pb", "Cd"] as const;

export const elementWords: Readonly<Record<LimitedElement, string>> = {
  Pb: "lead",
  Cd: "cadmium",
};

const fold = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, " ");

/** A class that leaves something out of a wider one is still of the wider one. */
const isFor = ({ articleClass }: LeachLimit, named: string): boolean =>
  named === articleClass || named.startsWith(`${articleClass} other than `);

const noneFor = (element: LimitedElement): string =>
  `No limit for ${elementWords[element]} of this jurisdiction is held here.`;

function noClass(articleClass: string, printed: readonly LeachLimit[]): string {
  const classes = [...new Set(printed.map((limit) => limit.articleClass))].join(", ");
  const said =
    articleClass.trim() === ""
      ? "No article class is said"
      : "The article class said is not among them";
  return `${said}: limits are printed for ${classes}.`;
}

function against(limit: LeachLimit, figures: readonly LeachFigure[]): Found {
  const most = new Decimal(limit.value);
  if (figures.length === 0)
    return cannot(`The report has no figure for ${elementWords[limit.element]}.`);
  const other = figures.find(({ unit }) => plainUnit(unit) !== plainUnit(limit.unit));
  if (other)
    return cannot(
      `The report says ${other.unit} and the limit is in ${limit.unit}; units are never converted.`,
    );
  const specimens = specimensOf(figures, most);
  const above = specimens.some(({ least }) => least.gt(most));
  return { ...byRule[limit.aggregate](specimens, most, above), above };
}

/** The one way of writing a unit. Both signs for micro, both letters for litre, and a raised 2 or a plain one. */
function plainUnit(unit: string): string {
  const plain = unit
    .trim()
    .toLowerCase()
    .replaceAll(" ", "")
    .replace(/^[μu]g/, "µg")
    .replace("dm2", "dm²");
  return plain === "µg/ml" ? "mg/l" : plain;
}
