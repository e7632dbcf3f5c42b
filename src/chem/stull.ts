import type { Chemistry, Quantity, UnityOxide } from "./chemistry-types.ts";
import { type Cone, compareCones } from "./cones.ts";
import { placed } from "./limits.ts";
import { boundaries, type FieldName, mapAxes, series1912 } from "./stull-boundaries.ts";

export { boundaries, mapAxes, series1912 } from "./stull-boundaries.ts";

/** A straight line through the map, from edge to edge, along which SiO2 / Al2O3 is `ratio`. */
export type RatioLine = { ratio: number; from: MapPoint; to: MapPoint };
export type MapPoint = { Al2O3: number; SiO2: number };

/**
 * A glaze's place on the map of silica and alumina. `fields` names where it lies by the map of 1912,
 * more than one where the ± reaches over a boundary, and is empty where the fields do not apply;
 * `why` then says each reason.
 */
export type StullPlace =
  | { kind: "no-place"; says: string }
  | {
      kind: "place";
      point: { Al2O3: Quantity; SiO2: Quantity };
      ratio: Quantity | null;
      lines: RatioLine[];
      onTheMap: boolean;
      applies: boolean;
      why: string[];
      fields: FieldName[];
      says: string;
    };

/**
 * Where a glaze lies on the map of silica and alumina, and whether the fields of 1912 say anything of
 * it: only within that series, cone 10 to 12, B2O3 at most 0.05, K2O + Na2O 0.2 to 0.4, CaO at least
 * 0.5, no other flux over 0.1, each by its value with its ±. Elsewhere only the dot, its ± and the
 * ratio lines mean anything. The unity formula must be over the fluxes alone.
 *
 * Worked example: Seger's cone 4, 0.3 K2O 0.7 CaO 0.5 Al2O3 4 SiO2, at cone 11 has ratio 8: bright.
 */
export function stullPlace(chemistry: Chemistry, cone?: Cone): StullPlace {
  const { unity, conventions, ratios } = chemistry;
  if (unity === null) {
    return { kind: "no-place", says: "There is no flux, so no unity formula to place." };
  }
  if (conventions.unity !== "fluxes") {
    const says = "The map counts no colouring oxide as flux: work it out over the fluxes alone.";
    return { kind: "no-place", says };
  }
  const zero = { value: 0, plusMinus: 0 };
  const point = { Al2O3: unity.Al2O3 ?? zero, SiO2: unity.SiO2 ?? zero };
  const why = whyNot(chemistry, cone);
  const applies = why.length === 0;
  const named = applies && ratios.silicaToAlumina ? fieldsAt(ratios.silicaToAlumina) : [];
  return {
    kind: "place",
    point,
    ratio: ratios.silicaToAlumina,
    lines: boundaries.map(({ ratio }) => ratioLine(ratio)),
    onTheMap: isOnTheMap(point),
    applies,
    why,
    fields: named,
    says: applies
      ? `${named.join(" or ")}, by the map of 1912; low confidence boundaries`
      : "outside the series of 1912; its fields do not apply",
  };
}

/**
 * The line of one ratio across the map, cut at its edges. Worked number: ratio 5 runs from Al2O3 0.2,
 * SiO2 1 to Al2O3 1.1, SiO2 5.5.
 */
export function ratioLine(ratio: number, axes: MapAxes = mapAxes): RatioLine {
  const least = Math.max(axes.Al2O3.from, axes.SiO2.from / ratio);
  const most = Math.min(axes.Al2O3.to, axes.SiO2.to / ratio);
  const at = (Al2O3: number): MapPoint => ({ Al2O3, SiO2: Al2O3 * ratio });
  return { ratio, from: at(least), to: at(Math.max(least, most)) };
}

export type MapAxes = {
  readonly Al2O3: { readonly from: number; readonly to: number };
  readonly SiO2: { readonly from: number; readonly to: number };
};

const isOnTheMap = ({ Al2O3, SiO2 }: { Al2O3: Quantity; SiO2: Quantity }): boolean =>
  Al2O3.value >= mapAxes.Al2O3.from &&
  Al2O3.value <= mapAxes.Al2O3.to &&
  SiO2.value >= mapAxes.SiO2.from &&
  SiO2.value <= mapAxes.SiO2.to;

function whyNot({ unity, ratios, findings }: Chemistry, cone: Cone | undefined): string[] {
  const { cones, mostB2O3, potashAndSoda, leastCaO, mostOther } = series1912;
  const why: string[] = [];
  if (cone === undefined) why.push("No cone was given; the series was fired to cone 11.");
  else if (compareCones(cone, cones.from) < 0 || compareCones(cone, cones.to) > 0) {
    why.push(`Cone ${cone} is outside cones ${cones.from} to ${cones.to}.`);
  }
  const check = (name: string, of: Quantity | null | undefined, least: number, most: number) => {
    const quantity = of ?? { value: 0, plusMinus: 0 };
    const is = placed(quantity, least, most);
    if (is === "inside") return;
    const range = most === Number.POSITIVE_INFINITY ? `at least ${least}` : `${least} to ${most}`;
    const figure = `${name} is ${shown(quantity.value)} ± ${shown(quantity.plusMinus)}`;
    why.push(
      is === "outside"
        ? `${figure}; the series has ${range}.`
        : `${figure}; whether it is in the series' ${range} cannot be told from these analyses.`,
    );
  };
  check("B2O3", unity?.B2O3, 0, mostB2O3);
  check("K2O + Na2O", ratios.potashAndSoda, potashAndSoda.least, potashAndSoda.most);
  check("CaO", unity?.CaO, leastCaO, Number.POSITIVE_INFINITY);
  for (const oxide of otherFluxes) check(oxide, unity?.[oxide], 0, mostOther);
  if (ratios.silicaToAlumina === null) why.push("There is no alumina, so no ratio.");
  if (findings.some(({ rule, level }) => rule === "colour-as-flux" && level !== "note")) {
    why.push("Colouring oxides that melt as fluxes are over 0.3 of them: unity misleads here.");
  }
  return why;
}

const otherFluxes: readonly UnityOxide[] = ["Li2O", "MgO", "SrO", "BaO", "ZnO", "PbO"];

const shown = (value: number): string => String(Number(value.toPrecision(3)));

/** Each field that the ratio with its ± touches; a boundary belongs to the field below it. */
function fieldsAt({ value, plusMinus }: Quantity): FieldName[] {
  const [low, high] = [value - plusMinus, value + plusMinus];
  return fields.filter(({ from, to }) => high > from && low <= to).map(({ name }) => name);
}

const fields = [
  { name: boundaries[0]?.below ?? "matt", from: Number.NEGATIVE_INFINITY },
  ...boundaries.map(({ above, ratio }) => ({ name: above, from: ratio })),
].map((field, at) => ({ ...field, to: boundaries[at]?.ratio ?? Number.POSITIVE_INFINITY }));
