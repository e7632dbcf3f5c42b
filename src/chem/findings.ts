import type { ChemistryRequest, Finding, Level } from "./chemistry-types.ts";
import { found, percentOfGlass, spoken } from "./finding.ts";
import type { Melt } from "./melt.ts";
import { fluxes, type Oxide, oxidePlace } from "./oxides.ts";
import { poisonFindings } from "./poisons.ts";
import { fumeNames, leachList, rules } from "./rules.ts";
import { colouringFluxes, molesPerGramAsFeO, unityBase } from "./unity-base.ts";

/**
 * What the rules have to say of a melt, most serious first. They name what bars the glaze from
 * food, what a laboratory has to look at and what the figures leave out; silence promises nothing.
 * A glaze meant as decorative hears of barium and metal fluxes as a caution rather than a stop.
 */
export function findingsOf(request: ChemistryRequest, melt: Melt): Finding[] {
  const decorative = request.use === "decorative";
  const findings = [
    ...poisonFindings(melt),
    ...decorativeOnly(melt, decorative),
    ...leachReports(melt, decorative),
    ...leftOut(melt),
    ...fumes(melt),
    ...missing(request, melt),
    ...colourAsFlux(melt),
  ];
  return findings.sort((a, b) => seriousness[a.level] - seriousness[b.level]);
}

const seriousness: Readonly<Record<Level, number>> = { stop: 0, caution: 1, note: 2 };

function decorativeOnly(melt: Melt, decorative: boolean): Finding[] {
  const level: Level = decorative ? "caution" : "stop";
  const barium = percentOfGlass(melt, "BaO");
  const metal = percentOfGlass(melt, "MnO") + percentOfGlass(melt, "CuO");
  const findings: Finding[] = [];
  if (barium > rules["barium-matt"].limit) {
    const seen = `BaO is ${spoken(barium)} % of the fired glass, as in a barium matt, from which it can leach.`;
    findings.push(found("barium-matt", seen, { level, value: barium }));
  }
  if (metal > rules["metal-flux"].limit) {
    const seen = `MnO and CuO are ${spoken(metal)} % of the fired glass: the metals do the melting, and they can leach.`;
    findings.push(found("metal-flux", seen, { level, value: metal }));
  }
  return findings;
}

function leachReports(melt: Melt, decorative: boolean): Finding[] {
  const level: Level = decorative ? "note" : "caution";
  return leachList.flatMap(({ name, oxide, level: limit }) => {
    const value = percentOfGlass(melt, oxide);
    if (value <= limit) return [];
    const seen = `${oxide} is ${spoken(value)} % of the fired glass, over ${limit} %; whether ${name} leaches cannot be worked out.`;
    return [found("leach-report", seen, { level, value, limit })];
  });
}

function leftOut({ ingredients }: Melt): Finding[] {
  return ingredients.flatMap(({ name, powder }) => {
    if (!powder) {
      const seen = `${name} has no analysis: it is left out of the figures, and this screen cannot judge it.`;
      return [found("no-analysis", seen)];
    }
    const rest = powder.unaccounted;
    if (rest <= rules.unaccounted.limit + roundingNoise) return [];
    const seen = `The analysis of ${name} leaves ${spoken(rest)} % unaccounted; it is neither glass nor loss here.`;
    return [found("unaccounted", seen, { value: rest })];
  });
}

/** Float64 noise in percents, so that a rest of exactly 2 is not over 2. */
const roundingNoise = 1e-9;

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

function colourAsFlux(melt: Melt): Finding[] {
  const flux = molesOf(melt, fluxes);
  const value = molesOf(melt, countedColour) / flux;
  if (flux === 0 || value <= rules["colour-as-flux"].limit) return [];
  const seen = `Colouring oxides that can melt as fluxes come to ${spoken(value)} for each mole of flux (iron as FeO), so that the unity formula misleads.`;
  return [found("colour-as-flux", seen, { value })];
}

const countedColour: readonly Oxide[] = ["Fe2O3", ...colouringFluxes];

/** Moles in the melt, each Fe2O3 as two FeO. */
function molesOf(melt: Melt, members: readonly Oxide[]): number {
  let moles = 0;
  for (const oxide of members) {
    const place = oxidePlace[oxide];
    moles += (molesPerGramAsFeO[place] ?? 0) * (melt.masses[place] ?? 0);
  }
  return moles;
}
