import { Decimal } from "decimal.js";
import type { Conventions } from "../chem/chemistry-types.ts";
import { type Cost, costOf } from "../chem/cost.ts";
import {
  type Difference,
  differencesBetween,
  type FigureName,
  figureDifferencesBetween,
} from "../chem/differences.ts";
import { type LineChange, lineChanges } from "../chem/line-changes.ts";
import type { PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { chemistryLines } from "./drafts.ts";
import { findPrices } from "./lots.ts";
import { type FoundRecipe, findRecipe, type Reader } from "./recipes.ts";
import { type FoundLine, type FoundRevision, findRevision } from "./revisions.ts";
import type { Standing } from "./standing.ts";
import { findStandings } from "./standings.ts";
import { type FoundTile, listTiles } from "./tiles.ts";

/** What costs are told for: a base of one kilogram, with its additions. */
const kilogram = new Decimal(1000);

/** One of two revisions that are laid side by side, with all that is held against the other. */
export type ComparedSide = {
  recipe: FoundRecipe;
  revision: FoundRevision;
  standing: Standing | undefined;
  tiles: FoundTile[];
  /** Of a kilogram of base by the newest lots; null for a visitor, whom prices do not concern. */
  cost: Cost | null;
};

type Wanted = { slug: string; number?: number | undefined; reader: Reader; now: Date };

/** A revision that the reader may know of, the head where no number is said. */
export async function findSide(db: Db, wanted: Wanted): Promise<ComparedSide | undefined> {
  const { slug, reader, now } = wanted;
  const recipe = await findRecipe(db, { slug, reader });
  const number = wanted.number ?? recipe?.head;
  const revision = recipe && number && (await findRevision(db, { recipeId: recipe.id, number }));
  if (!recipe || !revision) return undefined;
  const standings = await findStandings(db, { revisionIds: [revision.id], now });
  return {
    recipe,
    revision,
    standing: standings.get(revision.id),
    tiles: await listTiles(db, { meltDigest: revision.meltDigest, reader }),
    cost: reader ? await findCost(db, revision.lines) : null,
  };
}

async function findCost(db: Db, lines: readonly FoundLine[]): Promise<Cost | null> {
  const prices = await findPrices(
    db,
    lines.map(({ material }) => material.id),
  );
  const priced = lines.map(({ part, amount, material }) => ({
    part,
    amount,
    name: material.name,
    price: prices.get(material.id) ?? null,
  }));
  return costOf(priced, kilogram);
}

type Powder = { slug: string; name: string };

/** A powder that both have, and the analyses that the one and the other are pinned to. */
export type OtherAnalysis = {
  material: Powder;
  left: PinnedAnalysis | null;
  right: PinnedAnalysis | null;
};

export type Comparison = {
  lines: (Omit<LineChange, "material"> & { material: Powder })[];
  otherAnalyses: OtherAnalysis[];
  /** Of the unity formula; empty where one of the two has none. */
  differences: Difference[];
  /** Ratios, loss and expansion. */
  figures: Difference<FigureName>[];
};

/**
 * What two revisions have in common and what not, the right one against the left.
 *
 * @param conventions by which the chemistry of both is counted.
 */
export function comparisonOf(
  left: FoundRevision,
  right: FoundRevision,
  conventions: Partial<Conventions> = {},
): Comparison {
  const powders = new Map(
    [...left.lines, ...right.lines].map(({ material: { slug, name } }) => [slug, { slug, name }]),
  );
  const changes = lineChanges(left.lines.map(comparedLine), right.lines.map(comparedLine));
  const lines = changes.map((change) => ({
    ...change,
    material: powders.get(change.material) ?? { slug: change.material, name: change.material },
  }));
  const otherAnalyses = lines.flatMap(({ otherAnalysis, part, material }) =>
    otherAnalysis
      ? [
          {
            material,
            left: pinnedIn(left, part, material.slug),
            right: pinnedIn(right, part, material.slug),
          },
        ]
      : [],
  );
  const both = [
    { lines: chemistryLines(left.lines), ...conventions },
    { lines: chemistryLines(right.lines), ...conventions },
  ] as const;
  return {
    lines,
    otherAnalyses: [...new Map(otherAnalyses.map((each) => [each.material.slug, each])).values()],
    differences: differencesBetween(...both),
    figures: figureDifferencesBetween(...both),
  };
}

const comparedLine = ({ part, material, analysis, amount }: FoundLine) => ({
  part,
  material: material.slug,
  analysis: analysis?.id ?? null,
  amount,
});

const pinnedIn = ({ lines }: FoundRevision, part: string, slug: string): PinnedAnalysis | null =>
  lines.find((line) => line.part === part && line.material.slug === slug)?.analysis ?? null;
