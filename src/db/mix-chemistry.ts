import type { Decimal } from "decimal.js";
import { dryGravityOf } from "../chem/blend-slurries.ts";
import { type ChemistryLine, workOut } from "../chem/chemistry.ts";
import { type Difference, differencesBetween } from "../chem/differences.ts";
import { correctionOf, type MixCorrection, slurryOfCorrection } from "../chem/mix-correction.ts";
import { type Move, movesBetween } from "../chem/moves.ts";
import { standingIn } from "../chem/not-this-lot.ts";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import { findInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import { chemistryLines } from "./drafts.ts";
import { findDryGravities } from "./material-gravities.ts";
import type { FoundMix, MixLine } from "./mixes.ts";
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

/** One powder of one line as it went in, and the analysis that it counts with. */
type Powder = {
  line: MixLine;
  grams: Decimal;
  analysisId: string | null;
  /** Whether the analysis is of the very lot, or not yet weighed. */
  known: boolean;
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
  const doubtful = powders.flatMap(({ known, line }) => (known ? [] : [line.material.name]));
  const notThisLot = [...new Set(doubtful)];
  const asPlanned =
    correction.kind === "within" &&
    powders.every(({ analysisId, line }) => analysisId === line.analysisId);
  const chemistry = asPlanned ? null : await chemistryOfMix(db, mix, powders);
  return { correction, slurry, chemistry, notThisLot };
}

async function slurryOf(
  db: Db,
  { lines, waterGrams, bucket }: FoundMix,
  correction: Extract<MixCorrection, { kind: "correct" }>,
) {
  if (!waterGrams) return null;
  const gravities = await findDryGravities(
    db,
    lines.map(({ material }) => material.id),
  );
  const powders = lines.map(({ material, grams }) => ({
    amount: grams,
    drySpecificGravity: gravities.get(material.id)?.gravity,
  }));
  const drySpecificGravity = dryGravityOf(powders).value;
  return slurryOfCorrection(correction, {
    waterGrams,
    drySpecificGravity,
    bucketLitres: bucket.litres,
  });
}

async function powdersOf(db: Db, { lines }: FoundMix): Promise<Powder[]> {
  const begun = lines.filter(({ put }) => put !== null);
  const inUse = await findInUse(
    db,
    begun.map(({ material }) => material.id),
  );
  return lines.flatMap((line): Powder[] => {
    const { grams, analysisId: pinned } = line;
    if (line.put === null) return [{ line, grams, analysisId: pinned, known: true }];
    const todays = inUse.get(line.material.id) ?? pinned;
    return line.ticks
      .filter(({ undone }) => !undone)
      .map((tick) => {
        const own = tick.lot?.analysisId ?? null;
        return { line, grams: tick.grams, analysisId: own ?? todays, known: own !== null };
      });
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
  const after = {
    lines: powders.map((powder) => chemistryLine(powder, analyses.get(powder.analysisId ?? ""))),
    ...about,
  };
  return {
    differences: differencesBetween(before, after),
    moves: movesBetween(workOut(before), workOut(after)),
  };
}

function chemistryLine(
  { line: { part, material }, grams, known }: Powder,
  pinned: PinnedAnalysis | undefined,
): ChemistryLine {
  const analysis = pinned ? (known ? pinned.analysis : standingIn(pinned.analysis)) : null;
  return {
    key: pinned?.id ?? material.id,
    name: material.name,
    part,
    amount: grams,
    analysis,
    analysedOn: pinned?.measuredOn ?? undefined,
  };
}
