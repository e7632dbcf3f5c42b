import type { Decimal } from "decimal.js";
import type { BlendKind } from "../../src/chem/blends.ts";

/** A kind of blend as people speak of it. */
export const kindWords: Readonly<Record<BlendKind, { name: string; says: string }>> = {
  ladder: { name: "Ladder", says: "one addition climbing on one base" },
  line: { name: "Line blend", says: "two recipes, mixed in steps" },
  triaxial: { name: "Triaxial blend", says: "three recipes, on a triangle" },
  grid: { name: "Grid", says: "four recipes, on the corners of a square" },
};

export const cornerNames = ["A", "B", "C", "D"] as const;

/** Where a point lies: `A 70, B 30` in percent, or `0.5 %` of what climbs. */
export function shareWords(kind: BlendKind, at: readonly number[]): string {
  if (kind === "ladder") return `${percent(at[0] ?? 0, 4)} %`;
  return at
    .map((share, corner) => ({ share, name: cornerNames[corner] ?? "" }))
    .filter(({ share }) => share > 0)
    .map(({ share, name }) => `${name} ${percent(share * 100, 1)}`)
    .join(", ");
}

const percent = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

type Line = { name: string; part: "base" | "addition"; amount: Decimal };

/** A point's recipe in one row: `Quartz 60, Whiting 40 + Tin oxide 2`. */
export function batchWords(lines: readonly Line[]): string {
  const row = (part: Line["part"]) =>
    lines
      .filter((line) => line.part === part)
      .map(({ name, amount }) => `${name} ${amount.toDecimalPlaces(3).toFixed()}`)
      .join(", ");
  return [row("base"), row("addition")].filter((words) => words !== "").join(" + ");
}
