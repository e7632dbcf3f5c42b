import { leachLimits } from "../../src/chem/leach-limits.ts";
import type { CheckFamily } from "./check-family.ts";
import printed from "./safety-limits.json" with { type: "json" };

type Printed = { body: string; item: string; value: unknown; how: string; class: string };

/** Records that may be held against what leaches out: of leachates, and seen in print. */
const records = (printed as Printed[]).filter(
  ({ class: kind, how, value }) => kind === "leach" && how === "looked up" && value !== null,
);

const ids: Readonly<Record<string, string>> = { EU: "eu", "US FDA": "us-fda", California: "us-ca" };

/** Whose record it is and which class it is for, by the record's own words. */
function placeOf({ body, item }: Printed): { jurisdiction: string; articleClass: string } {
  if (body === "ISO") {
    const is8391 = item.startsWith("ISO 8391-2");
    return is8391
      ? { jurisdiction: "iso-8391", articleClass: "cookware, boiling test" }
      : { jurisdiction: "iso-6486", articleClass: item.replace("ISO 6486-2:1999 ", "") };
  }
  const articleClass = item
    .replace(/^Prop 65 settlement /, "")
    .replace(/^(Pb|Cd) /, "")
    .replace(/ ?\(.*\)$/, "")
    .replace(/ [<>]=?\d.*$/, "")
    .replace(/[:,].*$/, "");
  return { jurisdiction: ids[body] ?? body, articleClass };
}

/** One figure, or one for each of the elements that the record names. */
function figuresOf({ item, value }: Printed): [element: string, figure: number][] {
  if (typeof value === "number") return [[/\b(Pb|Cd)\b/.exec(item)?.[0] ?? "", value]];
  return Object.entries(value as Record<string, number>);
}

const leach: CheckFamily = {
  name: "Limits for lead and cadmium out of pottery",
  source: "the directive, policy guides, standards and judgment named beside each",
  how: "looked up",
  unit: "the unit that it is printed in",
  checks: records.flatMap((record) => {
    const { jurisdiction, articleClass } = placeOf(record);
    return figuresOf(record).map(([element, figure]) => {
      const held = leachLimits.find(
        (limit) =>
          limit.jurisdiction === jurisdiction &&
          limit.articleClass === articleClass &&
          limit.element === element,
      );
      return {
        what: `${jurisdiction}, ${articleClass}: ${element} ${figure} ${held?.unit ?? ""}`,
        tolerance: 0,
        deviation: held ? Number(held.value) - figure : Number.NaN,
      };
    });
  }),
  leftOut:
    "ISO 6486-2 for storage, cups and mugs, and cooking ware is from memory and no check; later settlements on cadmium are from memory and not held. Figures for drinking water, workshop air and a day's dose are other quantities.",
};

export const leachChecks: readonly CheckFamily[] = [leach];
