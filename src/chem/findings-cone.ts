import type { Finding, Quantity } from "./chemistry-types.ts";
import { type Cone, compareCones, coneCelsius } from "./cones.ts";
import { cannotBeTold, found, judge, spokenWith } from "./finding.ts";
import { type LimitSet, limitsFor } from "./limits.ts";
import type { Melt } from "./melt.ts";
import { type Oxide, oxidePlace } from "./oxides.ts";
import { quotient } from "./quotient.ts";
import { type BoronBand, boronBands } from "./rules-boron.ts";
import { molesOfBase, molesPerGram, only } from "./unity-base.ts";

const baseMoles = molesOfBase("fluxes", "Fe2O3");
const moles = {
  SiO2: only(["SiO2"], molesPerGram),
  Al2O3: only(["Al2O3"], molesPerGram),
  B2O3: only(["B2O3"], molesPerGram),
};

/**
 * What the cone asks of silica, alumina and boron. Silica and alumina are held against the limit
 * formulas printed for that cone, boron against common practice. Where boron speaks of a much cooler
 * cone than the one given, the finding asks which is meant. Nothing is said without a cone or a flux.
 */
export function coneFindings(melt: Melt, cone: Cone | undefined): Finding[] {
  if (cone === undefined || melt.glass <= 0) return [];
  const of = (oxide: keyof typeof moles) => quotient(melt, moles[oxide], baseMoles);
  const [silica, alumina, boron] = [of("SiO2"), of("Al2O3"), of("B2O3")];
  if (!silica || !alumina || !boron) return [];
  return [
    ...limitFindings(melt, cone, { SiO2: silica, Al2O3: alumina }),
    ...boronFindings(boron, cone),
  ];
}

function limitFindings(
  melt: Melt,
  cone: Cone,
  amounts: Record<"SiO2" | "Al2O3", Quantity>,
): Finding[] {
  const held = limitsFor(cone);
  if (held.kind === "none") {
    return [found("limits-for-cone", `For ${named(cone)}: ${held.says}.`)];
  }
  const sets = held.sets.filter((set) => leadAgrees(set, melt));
  return [
    ...besides("silica-for-cone", "SiO2", amounts.SiO2, cone, sets),
    ...besides("alumina-for-cone", "Al2O3", amounts.Al2O3, cone, sets),
  ];
}

/** A set for lead glazes says nothing of a glaze without lead. */
const leadAgrees = ({ limits }: LimitSet, melt: Melt): boolean =>
  (limits.PbO?.[0] ?? 0) === 0 || melt.present.includes(oxidePlace.PbO);

/** Speaks where an oxide is below the least or above the most of every set printed for the cone. */
function besides(
  rule: "silica-for-cone" | "alumina-for-cone",
  oxide: Oxide & ("SiO2" | "Al2O3"),
  of: Quantity,
  cone: Cone,
  sets: readonly LimitSet[],
): Finding[] {
  const printed = sets.filter(({ limits }) => limits[oxide] !== undefined);
  if (printed.length === 0) return [];
  const least = Math.min(...printed.map(({ limits }) => limits[oxide]?.[0] ?? 0));
  const most = Math.max(...printed.map(({ limits }) => limits[oxide]?.[1] ?? 0));
  const source = [...new Set(printed.map((set) => set.source))].join("; ");
  for (const [side, limit] of [
    ["under", least],
    ["over", most],
  ] as const) {
    const { beyond, doubtful } = judge(of, side, limit);
    if (!beyond && !doubtful) continue;
    const which = side === "under" ? "least" : "most";
    const figure = `${oxide} in the unity formula is ${spokenWith(of)}, and the ${which} of the limits printed for ${named(cone)} is ${limit}`;
    const seen = doubtful ? `${figure}; ${cannotBeTold}.` : `${figure}.`;
    return [found(rule, seen, { ...of, limit, source })];
  }
  return [];
}

const bandOf = (cone: Cone): BoronBand | undefined =>
  boronBands.find(({ from, to }) => compareCones(from, cone) <= 0 && compareCones(cone, to) <= 0);

function boronFindings(of: Quantity, cone: Cone): Finding[] {
  const band = bandOf(cone);
  if (!band) return [];
  const figure = `B2O3 in the unity formula is ${spokenWith(of)}`;
  const low = judge(of, "under", band.least);
  if (low.beyond || low.doubtful) {
    const limit = band.least;
    const seen = `${figure}, and glazes for ${named(cone)} carry at least about ${limit}${low.doubtful ? `; ${cannotBeTold}` : ""}.`;
    return [found("boron-for-cone", seen, { ...of, limit })];
  }
  if (band.most === null) return [];
  const high = judge(of, "over", band.most);
  if (!high.beyond && !high.doubtful) return [];
  const limit = band.most;
  const seen = `${figure}, and glazes for ${named(cone)} carry at most about ${limit}`;
  if (!high.beyond) {
    return [found("boron-over-cone", `${seen}; ${cannotBeTold}.`, { level: "note", ...of, limit })];
  }
  const doubt = high.doubtful ? ` At this ± ${cannotBeTold}.` : "";
  return [found("boron-over-cone", `${seen}.${doubt} ${question(of, cone)}`, { ...of, limit })];
}

/** Which cone was meant, by the hottest band cooler than the cone that holds so much boron. */
function question({ value }: Quantity, cone: Cone): string {
  const cooler = boronBands.filter(
    ({ to, least, most }) =>
      compareCones(to, cone) < 0 && value >= least && (most === null || value <= most),
  );
  const band = cooler.at(-1);
  if (!band) return "Is the cone right?";
  return `So much boron speaks of ${named(band.from)} to ${named(band.to)}: which cone is meant?`;
}

/** A cone with its temperature and series, since 04 and 4 look alike and are about 100 °C apart. */
function named(cone: Cone): string {
  const endPoint = coneCelsius(cone);
  if (!endPoint) return `cone ${cone}`;
  const { celsius, rate, series } = endPoint;
  return `cone ${cone} (${celsius} °C at ${rate} °C/h, ${series})`;
}
