import type { ChemistryRequest, Finding, Level } from "./chemistry-types.ts";
import { cannotBeTold, found, judge, spokenWith } from "./finding.ts";
import { analysisFindings } from "./findings-analyses.ts";
import { coneFindings } from "./findings-cone.ts";
import { leachFindings, measuredFindings } from "./findings-measured.ts";
import { firstOrderOf } from "./first-order.ts";
import type { Melt } from "./melt.ts";
import { type Oxide, oxidePlace } from "./oxides.ts";
import { poisonFindings } from "./poisons.ts";
import { quotient } from "./quotient.ts";
import { fumeNames, rules } from "./rules.ts";
import {
  colouringFluxes,
  molesOfBase,
  molesPerGram,
  molesPerGramAsFeO,
  only,
  unityBase,
} from "./unity-base.ts";

/**
 * What the rules have to say of a melt, most serious first. They name what bars the glaze from
 * food, what a laboratory has to look at and what the figures leave out; silence promises nothing.
 * A glaze meant as decorative hears of barium and metal fluxes as a caution rather than a stop.
 */
export function findingsOf(request: ChemistryRequest, melt: Melt): Finding[] {
  const { use, cone } = request;
  const findings = [
    ...poisonFindings(melt),
    ...measuredFindings(melt, use),
    ...leachFindings(melt, use),
    ...analysisFindings(request, melt),
    ...fumes(melt),
    ...coneFindings(melt, cone),
    ...missing(request, melt),
    ...colourAsFlux(melt),
    ...doubtfulFluxes(request, melt),
  ];
  return findings.sort((a, b) => seriousness[a.level] - seriousness[b.level]);
}

const seriousness: Readonly<Record<Level, number>> = { stop: 0, caution: 1, note: 2 };

function fumes({ ingredients }: Melt): Finding[] {
  return ingredients.flatMap(({ name, givesOff }) => {
    const gases = givesOff.flatMap((element) => fumeNames[element] ?? []);
    if (gases.length === 0) return [];
    const seen = `${name} gives off ${gases.join(" and ")}. All of it is counted as loss here, but part may stay in the glass.`;
    return [found("fumes", seen)];
  });
}

function missing({ unity = "fluxes", iron = "Fe2O3" }: ChemistryRequest, melt: Melt): Finding[] {
  const inUnity = unityBase(unity, iron);
  if (melt.glass <= 0) return [found("no-glass", "Nothing is left after firing.")];
  const findings: Finding[] = [];
  if (!melt.present.some((place) => inUnity[place] && (melt.masses[place] ?? 0) > 0)) {
    const seen = "There is no flux to divide by, so there is no unity formula and no alkali share.";
    findings.push(found("no-flux", seen));
  }
  if ((melt.masses[oxidePlace.Al2O3] ?? 0) === 0) {
    findings.push(found("no-alumina", "Without alumina there is no ratio of silica to it."));
  }
  return findings;
}

/** Where the fluxes are so few that their own ± comes near to them, the ± of the formula misleads. */
function doubtfulFluxes(
  { unity = "fluxes", iron = "Fe2O3" }: ChemistryRequest,
  melt: Melt,
): Finding[] {
  const inMoles = iron === "FeO" ? molesPerGramAsFeO : molesPerGram;
  const first = firstOrderOf(melt, inMoles, unityBase(unity, iron));
  if (!first || first.enough) return [];
  const percent = Math.round(first.share * 100);
  const seen = `The fluxes of this melt are known only to ± ${percent} % of themselves, so the ± of its unity formula is too small and lopsided.`;
  return [found("first-order", seen, { value: first.share })];
}

const countedColour = only(
  ["Fe2O3", ...colouringFluxes] satisfies readonly Oxide[],
  molesPerGramAsFeO,
);

/** Iron is counted as FeO here, two for each Fe2O3: as that it melts. */
function colourAsFlux(melt: Melt): Finding[] {
  const of = quotient(melt, countedColour, molesOfBase("fluxes", "FeO"));
  if (!of) return [];
  const { limit } = rules["colour-as-flux"];
  const { beyond, doubtful } = judge(of, "over", limit);
  if (!beyond && !doubtful) return [];
  const figure = `Colouring oxides that can melt as fluxes come to ${spokenWith(of)} for each mole of flux (iron as FeO), limit ${limit}`;
  if (!beyond) {
    return [found("colour-as-flux", `${figure}; ${cannotBeTold}.`, { level: "note", ...of })];
  }
  const doubt = doubtful ? ` At this ± ${cannotBeTold}.` : "";
  return [found("colour-as-flux", `${figure}: the unity formula misleads.${doubt}`, of)];
}
