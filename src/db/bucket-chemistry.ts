import { type ChemistryLine, type ChemistryRequest, workOut } from "../chem/chemistry.ts";
import { type Move, movesBetween } from "../chem/moves.ts";
import { standingIn } from "../chem/not-this-lot.ts";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Filling } from "./bucket-fillings.ts";
import type { PowderIn } from "./bucket-ticks.ts";
import type { Db } from "./client.ts";
import { chemistryLines } from "./drafts.ts";
import { findRevisions } from "./revisions.ts";

/** What is in a bucket beside what its revision says, as the chemistry reads both. */
export type BucketChemistry = {
  before: ChemistryRequest;
  after: ChemistryRequest;
  /** What moved further than an approval bears. */
  moves: Move[];
};

type Filled = { id: string; revisionId: string; filling: Filling };

/**
 * How what is in some buckets stands beside what their revisions say, with what is still to come of
 * an open mix as planned: bucket id → chemistry. A bucket that nothing is in has no entry.
 */
export async function findBucketChemistries(
  db: Db,
  buckets: readonly Filled[],
): Promise<Map<string, BucketChemistry>> {
  const filled = buckets.filter(({ filling }) => filling.contents.dryGrams.gt(0));
  if (filled.length === 0) return new Map();
  const found = await findRevisions(db, [...new Set(filled.map(({ revisionId }) => revisionId))]);
  const revisions = new Map(found.map((revision) => [revision.id, revision]));
  const analyses = await findAnalyses(
    db,
    filled.flatMap(({ filling }) =>
      powdersOf(filling).flatMap(({ analysisId }) => analysisId ?? []),
    ),
  );
  return new Map(
    filled.flatMap(({ id, revisionId, filling }) => {
      const revision = revisions.get(revisionId);
      if (!revision) return [];
      const about = { use: revision.use, cone: revision.cones.high };
      const before = { lines: chemistryLines(revision.lines), ...about };
      const lines = powdersOf(filling).map((powder) =>
        powderLine(powder, analyses.get(powder.analysisId ?? "")),
      );
      const after = { lines, ...about };
      return [[id, { before, after, moves: movesBetween(workOut(before), workOut(after)) }]];
    }),
  );
}

const powdersOf = ({ contents, toCome }: Filling): PowderIn[] => [...contents.powders, ...toCome];

type PowderWeighed = Pick<PowderIn, "part" | "notThisLot" | "grams"> & {
  material: { id: string; name: string };
  lot: { id: string } | null;
};

/**
 * A powder that went in, as the chemistry reads it. A lot that nobody analysed is an unknown of its
 * own, whatever stands in for it.
 */
export function powderLine(
  { material, part, lot, notThisLot, grams }: PowderWeighed,
  pinned: PinnedAnalysis | undefined,
): ChemistryLine {
  const key = pinned?.id ?? material.id;
  return {
    key: notThisLot ? `${key} not this lot ${lot?.id ?? ""}` : key,
    name: material.name,
    part,
    amount: grams,
    analysis: pinned ? (notThisLot ? standingIn(pinned.analysis) : pinned.analysis) : null,
    analysedOn: pinned?.measuredOn ?? undefined,
  };
}
