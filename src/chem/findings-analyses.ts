import type { ChemistryRequest, Finding } from "./chemistry-types.ts";
import { found, spoken } from "./finding.ts";
import type { Melt } from "./melt.ts";
import { namesPass } from "./named.ts";
import { inclusionWords, rules } from "./rules.ts";

/** Float64 noise in percents, so that a rest of exactly 2 is not over 2. */
const roundingNoise = 1e-9;

const namedFor = namesPass([{ id: "inclusion", words: inclusionWords }]);

/**
 * What the analyses do not tell: lines without any, rests that are neither glass nor loss, stains
 * whose poison is shut in crystals, and analyses that have grown old.
 */
export function analysisFindings({ lines, today }: ChemistryRequest, melt: Melt): Finding[] {
  return melt.ingredients.flatMap(({ name, line, powder }) => {
    if (!powder) {
      const seen = `${name} has no analysis: it is left out of the figures, and this screen cannot judge it.`;
      return [found("no-analysis", seen, { elements: leadAndCadmium })];
    }
    return [
      ...unaccountedFindings(name, powder.unaccounted),
      ...ageFindings(name, lines[line]?.analysedOn, today),
    ];
  });
}

const leadAndCadmium = ["Pb", "Cd"];

function unaccountedFindings(name: string, rest: number): Finding[] {
  const findings: Finding[] = [];
  if (rest > rules.unaccounted.limit + roundingNoise) {
    const seen = `The analysis of ${name} leaves ${spoken(rest)} % unaccounted; it is neither glass nor loss here.`;
    findings.push(found("unaccounted", seen, { value: rest }));
  }
  const elements = leadAndCadmium;
  const { limit } = rules["unknown-composition"];
  if (rest > limit + roundingNoise) {
    const seen = `${name} is ${spoken(rest)} % of nobody knows what, over ${limit} %: its composition counts as unknown.`;
    findings.push(found("unknown-composition", seen, { value: rest, elements }));
  } else if (namedFor(name).has("inclusion")) {
    const seen = `${name} is named as an inclusion stain: what is shut in its crystals can come out in a glaze that attacks them.`;
    const { limit: _, ...finding } = found("unknown-composition", seen, { elements });
    findings.push(finding);
  }
  return findings;
}

/**
 * Lines whose analysis is over five years old on a day, YYYY-MM-DD: what a chemistry that was kept
 * without a day does not say. Each analysis is told once.
 */
export function oldAnalyses(lines: ChemistryRequest["lines"], today: string): Finding[] {
  const each = new Map(lines.map((line) => [line.key, line]));
  return [...each.values()].flatMap(({ name, analysedOn }) => ageFindings(name, analysedOn, today));
}

function ageFindings(
  name: string,
  analysedOn: string | undefined,
  today: string | undefined,
): Finding[] {
  if (!isDay(analysedOn) || !isDay(today)) return [];
  const { limit } = rules["old-analysis"];
  // Days as YYYY-MM-DD sort as text, and so does the day some years on.
  const stillNew = `${String(Number(analysedOn.slice(0, 4)) + limit).padStart(4, "0")}${analysedOn.slice(4)}`;
  if (today <= stillNew) return [];
  const years = (Date.parse(today) - Date.parse(analysedOn)) / millisecondsInYear;
  const seen = `The analysis of ${name} is of ${analysedOn}, over ${limit} years old.`;
  return [found("old-analysis", seen, { value: years })];
}

const millisecondsInYear = 365.25 * 24 * 3600 * 1000;

const isDay = (text: string | undefined): text is string =>
  text !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));
