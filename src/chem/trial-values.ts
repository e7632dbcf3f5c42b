import type { Chemistry, Finding, Quantity } from "./chemistry-types.ts";

/** A value by which a trial's points can be looked at; oxides are of the unity formula. */
export type ShownValue = { name: string; says: string; unit: string };

const ratios: readonly ShownValue[] = [
  { name: "silica-to-alumina", says: "Silica to alumina", unit: "" },
  { name: "alkali-share", says: "Alkali share of the fluxes", unit: "" },
  { name: "expansion", says: "Expansion after Appen", unit: "1e-6/K" },
];

/** What can be shown of some points: the ratios, the expansion, and each oxide that one of them has. */
export function shownValues(chemistries: readonly Chemistry[]): ShownValue[] {
  const oxides = new Set(chemistries.flatMap(({ unity }) => Object.keys(unity ?? {})));
  return [
    ...ratios,
    ...[...oxides].map((oxide) => ({
      name: oxide,
      says: `${oxide} in the unity formula`,
      unit: "",
    })),
  ];
}

/** One of them at a point; null where it has no value there. */
export function shownValueOf(chemistry: Chemistry, name: string): Quantity | null {
  switch (name) {
    case "silica-to-alumina":
      return chemistry.ratios.silicaToAlumina;
    case "alkali-share":
      return chemistry.ratios.alkaliShare;
    case "expansion": {
      const appen = chemistry.expansion.find(({ model }) => model === "appen");
      if (!appen || appen.value === null) return null;
      return { value: appen.value, plusMinus: appen.plusMinus ?? 0 };
    }
    default: {
      if (!chemistry.unity) return null;
      const moles: Readonly<Record<string, Quantity | undefined>> = chemistry.unity;
      return moles[name] ?? { value: 0, plusMinus: 0 };
    }
  }
}

/** The first of them that is not the same at every point, else the first: a ladder leaves ratios alone. */
export function firstThatMoves(
  values: readonly ShownValue[],
  chemistries: readonly Chemistry[],
): ShownValue | undefined {
  const moves = ({ name }: ShownValue) => {
    const each = chemistries.flatMap((chemistry) => shownValueOf(chemistry, name)?.value ?? []);
    return Math.max(...each) - Math.min(...each) > leastMove;
  };
  return values.find(moves) ?? values[0];
}

/** Below this a difference is float64 noise. */
const leastMove = 1e-9;

/** The five tints of a drawing: the place of a value between the least and the most, 0 to 4. */
export function tintOf(value: number, least: number, most: number): number {
  if (most - least <= leastMove) return 0;
  return Math.min(4, Math.floor(((value - least) / (most - least)) * 5));
}

/** Where the screen of a ladder says something else than a point before. */
export type Turn = { n: number; begins: Finding[]; ends: Finding[] };

/**
 * The points of a ladder at which the screen's opinion changes: findings of a rule and level that
 * the point before did not have, and those that it had. What is only good to know is left out.
 */
export function turnsOf(points: readonly { n: number; findings: readonly Finding[] }[]): Turn[] {
  return points.flatMap(({ n, findings }, at) => {
    const before = points[at - 1];
    if (!before) return [];
    const begins = lacking(before.findings, findings);
    const ends = lacking(findings, before.findings);
    return begins.length + ends.length === 0 ? [] : [{ n, begins, ends }];
  });
}

function lacking(these: readonly Finding[], those: readonly Finding[]): Finding[] {
  const known = new Set(these.map(keyOf));
  return those.filter((finding) => finding.level !== "note" && !known.has(keyOf(finding)));
}

const keyOf = ({ rule, level }: Finding): string => `${level} ${rule}`;
