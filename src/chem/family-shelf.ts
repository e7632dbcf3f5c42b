import { Decimal } from "decimal.js";
import { baseTotal, type WeighedLine } from "./lines.ts";

export type FamilyLine = WeighedLine & { readonly label: string; readonly name: string };

/** A recipe of a family by its lines. */
export type FamilyMember = { readonly label: string; readonly lines: readonly FamilyLine[] };

/** How much of a material each recipe has, percent of its base; recipes without it have no entry. */
export type Coverage = {
  label: string;
  name: string;
  part: FamilyLine["part"];
  percents: { recipe: string; percent: Decimal }[];
};

/**
 * Which material is in which recipe: base materials first, those that stand in most recipes before
 * others, then by name. A material that is in the base of one and an addition of another has two rows.
 *
 * Worked number: kaolin 7 in a base of 50 is 14 percent.
 */
export function coverageOf(members: readonly FamilyMember[]): Coverage[] {
  const rows = new Map<string, Coverage>();
  for (const member of members) {
    const base = baseTotal(member.lines);
    if (base.isZero()) continue;
    for (const { part, label, name, amount } of member.lines) {
      if (amount.isZero()) continue;
      const key = `${part} ${label}`;
      const row = rows.get(key) ?? { label, name, part, percents: [] };
      const percent = amount.times(100).div(base);
      const known = row.percents.find(({ recipe }) => recipe === member.label);
      if (known) known.percent = known.percent.plus(percent);
      else row.percents.push({ recipe: member.label, percent });
      rows.set(key, row);
    }
  }
  return [...rows.values()].sort(
    (a, b) =>
      Number(a.part === "addition") - Number(b.part === "addition") ||
      b.percents.length - a.percents.length ||
      (a.name < b.name ? -1 : 1),
  );
}

/** Grams of each material, whichever part it stands in. */
export type Shopping = { label: string; name: string; grams: Decimal }[];

/**
 * What to have in the house for `grams` of base of every recipe, with the additions on top: unrounded,
 * in the order of names.
 *
 * Worked number: 100 g of two bases with 28 and 32 of feldspar are 60 g of it.
 */
export function shoppingFor(coverage: readonly Coverage[], grams: Decimal): Shopping {
  const needed = new Map<string, Shopping[number]>();
  for (const { label, name, percents } of coverage) {
    const own = percents.reduce((sum, { percent }) => sum.plus(percent), new Decimal(0));
    const known = needed.get(label)?.grams ?? new Decimal(0);
    needed.set(label, { label, name, grams: known.plus(own.times(grams).div(100)) });
  }
  return [...needed.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}
