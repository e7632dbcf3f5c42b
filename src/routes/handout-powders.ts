import { Decimal } from "decimal.js";
import type { ShownAnalysis, ShownPowder } from "../../views/handouts/types.ts";
import { powderOf } from "../chem/analysis.ts";
import type { WeightUnit } from "../chem/batch-amounts.ts";
import { type Coverage, shoppingFor } from "../chem/family-shelf.ts";
import type { Db } from "../db/client.ts";
import type { Piece } from "../db/handout-pieces.ts";
import { listLookAlikes, listNames } from "../db/material-names.ts";
import { findNamesIn } from "../db/names-in-region.ts";

type Buying = {
  coverage: readonly Coverage[];
  region: string;
  /** Dry base of the tub, in `weight`. */
  size: Decimal;
  weight: WeightUnit;
};

/** The powders of a handout: what to ask for, what not to buy, how much, and which analysis counts. */
export async function handoutPowders(
  db: Db,
  pieces: readonly Piece[],
  { coverage, region, size, weight }: Buying,
): Promise<ShownPowder[]> {
  const lines = pieces.flatMap(({ revision }) => revision.lines);
  const materials = new Map(lines.map(({ material }) => [material.slug, material]));
  const materialIds = [...materials.values()].map(({ id }) => id);
  const there = region === "" ? undefined : await findNamesIn(db, { region, materialIds });
  const elsewhere = there ? new Map() : await listNames(db, materialIds);
  const tests = boughtOf(coverage, new Decimal(100), 1);
  const tubs = boughtOf(coverage, size, weight === "g" ? 0 : 3);
  const powders: ShownPowder[] = [];
  const told = new Set<string>();
  for (const { label: slug, part } of coverage) {
    const material = materials.get(slug);
    if (!material || told.has(slug)) continue;
    told.add(slug);
    const { id: materialId, name, stillSold } = material;
    const called = there && (there.get(materialId) ?? null);
    const words = called ? [called.name, ...called.also] : [name];
    powders.push({
      ...{ slug, name, part, stillSold },
      called: called && { name: called.name, caution: called.caution, also: called.also },
      elsewhere: (elsewhere.get(materialId) ?? []).map(
        (each: { name: string; region: string }) => ({ name: each.name, region: each.region }),
      ),
      lookAlikes: (await listLookAlikes(db, { materialId, words })).map(
        ({ word, name: other, region: where, caution }) => ({
          ...{ word, name: other, region: where, caution },
        }),
      ),
      ...analysesOf(pieces, slug),
      buy: {
        testGrams: tests.get(slug) ?? new Decimal(0),
        tub: tubs.get(slug) ?? new Decimal(0),
      },
    });
  }
  return powders;
}

/** Rounded up, so that what is bought is never too little. */
const boughtOf = (coverage: readonly Coverage[], base: Decimal, places: number) =>
  new Map(
    shoppingFor(coverage, base).map(({ label, grams }) => [
      label,
      grams.toDecimalPlaces(places, Decimal.ROUND_UP),
    ]),
  );

/** The analyses that the recipes count on: those that they were published with. */
function analysesOf(
  pieces: readonly Piece[],
  slug: string,
): Pick<ShownPowder, "analyses" | "unknownIn"> {
  const found = new Map<string, ShownAnalysis & { of: string[] }>();
  const unknownIn = new Set<string>();
  for (const { recipe, revision } of pieces)
    for (const { material, analysis } of revision.lines) {
      if (material.slug !== slug) continue;
      if (!analysis) {
        unknownIn.add(recipe.name);
        continue;
      }
      const known = found.get(analysis.id);
      if (known) known.of = [...new Set([...known.of, recipe.name])];
      else found.set(analysis.id, { ...asShown(analysis), of: [recipe.name] });
    }
  return { analyses: [...found.values()], unknownIn: [...unknownIn] };
}

/** What an oxide has to come to, percent of the powder, to be told a buyer. */
const worthTelling = 0.05;

function asShown({
  source,
  measuredOn,
  analysis,
}: NonNullable<Piece["revision"]["lines"][number]["analysis"]>): Omit<ShownAnalysis, "of"> {
  const { listed, percent, loss } = powderOf(analysis);
  const oxides = listed
    .map((oxide, at) => ({ oxide, percent: percent[at] ?? 0 }))
    .filter((each) => each.percent >= worthTelling)
    .sort((a, b) => b.percent - a.percent);
  return { source, measuredOn, oxides, loss };
}
