import type { Decimal } from "decimal.js";
import { dryGravityOf } from "../chem/blend-slurries.ts";
import { workOut } from "../chem/chemistry.ts";
import { type Difference, differencesBetween } from "../chem/differences.ts";
import { correctionOf, type MixCorrection, slurryOfCorrection } from "../chem/mix-correction.ts";
import { type Move, movesBetween } from "../chem/moves.ts";
import { findAnalyses } from "./analyses.ts";
import { powderLine } from "./bucket-chemistry.ts";
import { countedWith } from "./bucket-ticks.ts";
import type { Db } from "./client.ts";
import { chemistryLines } from "./drafts.ts";
import { withDryGravities } from "./material-gravities.ts";
import type { FoundMix, MixLine } from "./mixes.ts";
import { findNewestAnalysisIds } from "./newest-lot-analyses.ts";
import { findRevisions } from "./revisions.ts";

export type MixChemistry = {
  /** Of the unity formula: what is in, with the rest as planned, against the revision. */
  differences: Difference[];
  /** What moved further than an approval bears. */
  moves: Move[];
};

export type MixState = {
  correction: MixCorrection;
  /** What a corrected batch comes to in the bucket; null where no water was planned. */
  slurry: ReturnType<typeof slurryOfCorrection> | null;
  /** null where the weights are as they should be and the powders are those of the revision. */
  chemistry: MixChemistry | null;
  /** Powders of lots that nobody analysed, or of a bag that nobody could tell. */
  notThisLot: string[];
};

/** One powder of one line as it went in, or is planned, and the analysis that it counts with. */
type Powder = Pick<MixLine, "material" | "part" | "grams" | "analysisId"> & {
  lot: { id: string } | null;
  notThisLot: boolean;
  /** The one that the revision pins. */
  pinned: string | null;
};

/** What is off in a mix, how it is put right, and what it does to the glaze as it is now. */
export async function mixStateOf(
  db: Db,
  mix: FoundMix,
  tolerancePercent: Decimal,
): Promise<MixState> {
  const weighed = mix.lines.map(({ grams, put }) => ({ planned: grams, put }));
  const { scaleGrams } = mix;
  const correction = correctionOf(weighed, { tolerancePercent, scaleGrams });
  const slurry = correction.kind === "correct" ? await slurryOf(db, mix, correction) : null;
  const powders = await powdersOf(db, mix);
  const doubtful = powders.filter((powder) => powder.notThisLot);
  const notThisLot = [...new Set(doubtful.map(({ material }) => material.name))];
  const asPlanned =
    correction.kind === "within" &&
    powders.every(({ analysisId, pinned }) => analysisId === pinned);
  const chemistry = asPlanned ? null : await chemistryOfMix(db, mix, powders);
  return { correction, slurry, chemistry, notThisLot };
}

async function slurryOf(
  db: Db,
  { lines, waterGrams, bucket }: FoundMix,
  correction: Extract<MixCorrection, { kind: "correct" }>,
) {
  if (!waterGrams) return null;
  const known = await withDryGravities(db, lines, ({ material }) => material.id);
  const powders = known.map(({ grams, drySpecificGravity }) => ({
    amount: grams,
    drySpecificGravity,
  }));
  const drySpecificGravity = dryGravityOf(powders).value;
  return slurryOfCorrection(correction, {
    waterGrams,
    drySpecificGravity,
    bucketLitres: bucket.litres,
  });
}

async function powdersOf(db: Db, { lines }: FoundMix): Promise<Powder[]> {
  const newest = await findNewestAnalysisIds(
    db,
    lines.flatMap(({ material, ticks }) =>
      ticks.some(({ lot }) => lot && lot.analysisId === null) ? [material.id] : [],
    ),
  );
  return lines.flatMap(({ material, part, grams, analysisId: pinned, put, ticks }): Powder[] => {
    const planned = { material, part, pinned };
    if (put === null)
      return [{ ...planned, grams, analysisId: pinned, lot: null, notThisLot: false }];
    return ticks
      .filter(({ undone }) => !undone)
      .map(({ grams, lot }) => ({
        ...{ ...planned, grams, lot },
        ...countedWith({ lot, newest: newest.get(material.id), pinned }),
      }));
  });
}

async function chemistryOfMix(
  db: Db,
  { revisionId }: FoundMix,
  powders: readonly Powder[],
): Promise<MixChemistry | null> {
  const [revision] = await findRevisions(db, [revisionId]);
  if (!revision) return null;
  const analyses = await findAnalyses(
    db,
    powders.flatMap(({ analysisId }) => analysisId ?? []),
  );
  const about = { use: revision.use, cone: revision.cones.high };
  const before = { lines: chemistryLines(revision.lines), ...about };
  const lines = powders.map((powder) => powderLine(powder, analyses.get(powder.analysisId ?? "")));
  const after = { lines, ...about };
  return {
    differences: differencesBetween(before, after),
    moves: movesBetween(workOut(before), workOut(after)),
  };
}
