import { Decimal } from "decimal.js";
import { asc, desc, eq, inArray, type SQL } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Analysis, Figure } from "../chem/analysis.ts";
import { isOxide, type Oxide, oxidePlace } from "../chem/oxides.ts";
import { analysisOfFormula } from "../chem/worked-out.ts";
import { keepInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import { digestOf } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { analyses, analysisOxides, people } from "./schema/index.ts";

/** An analysis as a line of a recipe pins it. `measuredOn` is a calendar day, such as 2026-03-01. */
export type PinnedAnalysis = {
  id: string;
  digest: string;
  source: string;
  measuredOn: string | null;
  addedAt: Date;
  analysis: Analysis;
};

/** An analysis as its material's page shows it. */
export type RecordedAnalysis = PinnedAnalysis & {
  materialId: string;
  formula: string | null;
  addedBy: { id: string; name: string };
};

/** What somebody gives to be kept: `formula` where the analysis was worked out from one. */
export type GivenAnalysis = {
  source: string;
  measuredOn: string | null;
  formula: string | null;
  analysis: Analysis;
};

/** Analyses by their ids; an id that is none has no entry. */
export async function findAnalyses(
  db: Db,
  ids: readonly string[],
): Promise<Map<string, PinnedAnalysis>> {
  if (ids.length === 0) return new Map();
  const found = await readAnalyses(db, inArray(analyses.id, [...new Set(ids)]));
  return new Map(found.map((analysis) => [analysis.id, analysis]));
}

/** Every analysis of a material, newest first. */
export const listAnalyses = (db: Db, materialId: string): Promise<RecordedAnalysis[]> =>
  readAnalyses(db, eq(analyses.materialId, materialId));

/**
 * The digest of what an analysis says, whoever says it: SHA-256 of its canonical JSON, with
 * decimals as strings without trailing zeros and `null` for what was not given.
 */
export function digestOfAnalysis(analysis: Analysis, formula: string | null): string {
  const listed = Object.entries(analysis.oxides).map(([oxide, figure]) => [oxide, plain(figure)]);
  return digestOf({
    basis: analysis.basis,
    formula,
    ideal: analysis.ideal ?? false,
    lossOnIgnition: analysis.lossOnIgnition ? plain(analysis.lossOnIgnition) : null,
    oxides: Object.fromEntries(listed),
  });
}

const plain = ({ percent, plusMinus }: Figure) => ({
  percent: percent.toFixed(),
  plusMinus: plusMinus?.toFixed() ?? null,
});

export type NewAnalysis = { id: string; digest: string; inUse: boolean };

/** A further analysis of a material. With `inUse` new revisions pin it from now on, else it waits. */
export async function addAnalysis(
  db: Db,
  params: Act & { by: string; materialId: string; given: GivenAnalysis; inUse: boolean },
): Promise<NewAnalysis> {
  const { materialId, given, inUse, by, at } = params;
  return db.transaction(async (tx) => {
    const { id, digest } = await keepAnalysis(tx, { materialId, given, by, at });
    if (inUse) await keepInUse(tx, { materialId, analysisId: id, why: "", by, at });
    await appendEvent(
      tx,
      { by, at },
      {
        kind: "analysis added",
        subject: "material",
        subjectId: materialId,
        detail: { analysis: id, digest, inUse },
      },
    );
    return { id, digest, inUse };
  });
}

/** What the analysis is going to look like once it is kept, with its digest. */
export function asKept({ analysis, formula }: GivenAnalysis): {
  analysis: Analysis;
  digest: string;
} {
  const kept = toSixDecimals(analysis, formula !== null);
  return { analysis: kept, digest: digestOfAnalysis(kept, formula) };
}

/** Puts an analysis on record, in the transaction of the change that it belongs to. */
export async function keepAnalysis(
  tx: Db,
  { materialId, given, by, at }: Act & { by: string; materialId: string; given: GivenAnalysis },
): Promise<{ id: string; digest: string }> {
  const { source, measuredOn, formula } = given;
  const { analysis, digest } = asKept(given);
  const id = uuidv7();
  await tx.insert(analyses).values({
    id,
    materialId,
    source,
    measuredOn,
    basis: analysis.basis,
    formula,
    ideal: analysis.ideal ?? false,
    lossPercent: analysis.lossOnIgnition?.percent ?? null,
    lossPlusMinus: analysis.lossOnIgnition?.plusMinus ?? null,
    digest,
    addedBy: by,
    addedAt: at,
  });
  const listed = Object.entries(analysis.oxides).map(([oxide, { percent, plusMinus }]) => ({
    analysisId: id,
    oxide,
    percent,
    plusMinus: plusMinus ?? null,
  }));
  await tx.insert(analysisOxides).values(listed);
  return { id, digest };
}

/**
 * What the table can hold. People type no more than six decimals; a formula gives endless ones, and
 * its loss stays what is missing from 100.
 */
function toSixDecimals(analysis: Analysis, fromFormula: boolean): Analysis {
  if (!fromFormula) return analysis;
  const rounded = Object.entries(analysis.oxides).map(
    ([oxide, { percent }]) => [oxide, { percent: percent.toDecimalPlaces(6) }] as const,
  );
  const sum = Decimal.sum(0, ...rounded.map(([, { percent }]) => percent));
  return {
    ...analysis,
    oxides: Object.fromEntries(rounded),
    lossOnIgnition: { percent: sum.neg().plus(100) },
  };
}

async function readAnalyses(db: Db, which: SQL): Promise<RecordedAnalysis[]> {
  const rows = await db
    .select({ analysis: analyses, by: people.name })
    .from(analyses)
    .innerJoin(people, eq(people.id, analyses.addedBy))
    .where(which)
    .orderBy(desc(analyses.id));
  if (rows.length === 0) return [];
  const ids = rows.map(({ analysis }) => analysis.id);
  const listed = await db
    .select()
    .from(analysisOxides)
    .where(inArray(analysisOxides.analysisId, ids))
    .orderBy(asc(analysisOxides.analysisId));
  const oxidesOf = new Map<string, Listed[]>(ids.map((id) => [id, []]));
  for (const { analysisId, ...figure } of listed) oxidesOf.get(analysisId)?.push(figure);
  return rows.map(({ analysis: row, by }) => ({
    id: row.id,
    materialId: row.materialId,
    digest: row.digest,
    source: row.source,
    measuredOn: row.measuredOn,
    formula: row.formula,
    addedAt: row.addedAt,
    addedBy: { id: row.addedBy, name: by },
    analysis: toAnalysis(row, oxidesOf.get(row.id) ?? []),
  }));
}

type Listed = { oxide: string; percent: Decimal; plusMinus: Decimal | null };

function toAnalysis(row: typeof analyses.$inferSelect, listed: readonly Listed[]): Analysis {
  const figures = listed
    .flatMap(({ oxide, ...figure }) => (isOxide(oxide) ? [{ oxide, figure }] : []))
    .sort((a, b) => oxidePlace[a.oxide] - oxidePlace[b.oxide])
    .map(({ oxide, figure }): [Oxide, Figure] => [
      oxide,
      toFigure(figure.percent, figure.plusMinus),
    ]);
  const givesOff = row.formula === null ? undefined : fumesOf(row.formula);
  return {
    basis: row.basis,
    oxides: Object.fromEntries(figures),
    ...(row.lossPercent && { lossOnIgnition: toFigure(row.lossPercent, row.lossPlusMinus) }),
    ...(row.ideal && { ideal: true }),
    ...(givesOff && { givesOff }),
  };
}

const toFigure = (percent: Decimal, plusMinus: Decimal | null): Figure =>
  plusMinus ? { percent, plusMinus } : { percent };

function fumesOf(formula: string): readonly string[] | undefined {
  const workedOut = analysisOfFormula(formula);
  return workedOut.kind === "analysis" ? workedOut.analysis.givesOff : undefined;
}
