import { Decimal } from "decimal.js";
import { and, asc, count, desc, eq, lt, or, type SQL, sql } from "drizzle-orm";
import { validate as isUuid } from "uuid";
import type { Part } from "../chem/lines.ts";
import { trialCode } from "../chem/tile-marks.ts";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { findMaterialsById, type MaterialOnShelf } from "./materials.ts";
import type { Reader } from "./recipes.ts";
import { measures, people, type trialKinds, trialPoints, trials } from "./schema/index.ts";
import { listRecipesOfTrial, type RecipeOfPoint } from "./trial-recipes.ts";
import { listResults, type TrialResult } from "./trial-results.ts";

export { measures };

export type Measure = (typeof measures)[number];
export type TrialKind = (typeof trialKinds)[number];

export type ListedTrial = {
  id: string;
  /** What its tiles carry before their number. */
  code: string;
  name: string;
  kind: TrialKind;
  measure: Measure;
  about: string;
  by: { id: string; name: string };
  at: Date;
};

/** A line of a point, pinned to the analysis that it was worked out with. */
export type TrialLine = {
  part: Part;
  material: MaterialOnShelf;
  analysis: PinnedAnalysis | null;
  amount: Decimal;
};

export type TrialPoint = {
  n: number;
  /** The share of each corner, or the percentage of a ladder's addition. */
  shares: number[];
  lines: TrialLine[];
  /** What came of it, in the order that it was put down. */
  results: TrialResult[];
  recipes: RecipeOfPoint[];
};

export type FoundTrial = ListedTrial & {
  question: Record<string, unknown>;
  points: TrialPoint[];
};

/** How many trials there were before. Trials are only ever added, so it stays what it is. */
export const trialsBefore = sql<number>`(select count(*)::integer from ${trials} earlier where (earlier.at, earlier.id) < (${trials.at}, ${trials.id}))`;

const listed = {
  id: trials.id,
  before: trialsBefore,
  name: trials.name,
  kind: trials.kind,
  measure: trials.measure,
  about: trials.about,
  by: { id: people.id, name: people.name },
  at: trials.at,
};

/** Trials are the studio's own: whoever belongs to it may read them all, and nobody else any. */
const readableTo = (reader: Reader): SQL | undefined => (reader ? undefined : sql`false`);

/**
 * Trials, newest first, each with how many points it has.
 *
 * @param after the id of the last trial of the page before, as `next` gave it.
 */
export async function listTrials(
  db: Db,
  { reader, after, limit = 50 }: { reader: Reader; after?: string | undefined; limit?: number },
): Promise<{ items: (ListedTrial & { points: number })[]; next: string | null }> {
  const [last] =
    after === undefined
      ? []
      : await db.select({ at: trials.at, id: trials.id }).from(trials).where(eq(trials.id, after));
  const before =
    last && or(lt(trials.at, last.at), and(eq(trials.at, last.at), lt(trials.id, last.id)));
  const rows = await db
    .select({ ...listed, points: count(trialPoints.n) })
    .from(trials)
    .innerJoin(people, eq(people.id, trials.by))
    .innerJoin(trialPoints, eq(trialPoints.trialId, trials.id))
    .where(and(readableTo(reader), before))
    .groupBy(trials.id, people.id)
    .orderBy(desc(trials.at), desc(trials.id))
    .limit(limit + 1);
  const items = rows.slice(0, limit).map(coded);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

/** One trial with its points, their lines, what came of them, and what became a recipe. */
export async function findTrial(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<FoundTrial | undefined> {
  if (!isUuid(id)) return undefined;
  const [trial] = await db
    .select({ ...listed, question: trials.question })
    .from(trials)
    .innerJoin(people, eq(people.id, trials.by))
    .where(and(eq(trials.id, id), readableTo(reader)));
  if (!trial) return undefined;
  const rows = await db
    .select()
    .from(trialPoints)
    .where(eq(trialPoints.trialId, id))
    .orderBy(asc(trialPoints.n));
  const linesOf = await readLines(db, rows);
  const results = await listResults(db, { trialId: id });
  const recipes = await listRecipesOfTrial(db, { trialId: id, reader });
  return {
    ...coded(trial),
    points: rows.map((row) => ({
      n: row.n,
      shares: row.shares,
      lines: linesOf(row),
      results: results.filter(({ n }) => n === row.n),
      recipes: recipes.filter(({ n }) => n === row.n),
    })),
  };
}

const coded = <Row extends { before: number }>({ before, ...row }: Row) => ({
  ...row,
  code: trialCode(before),
});

type PointRow = typeof trialPoints.$inferSelect;

/** Each powder and analysis once, however many points there are. */
async function readLines(db: Db, rows: readonly PointRow[]) {
  const all = rows.flatMap(({ lines }) => lines);
  const materials = await findMaterialsById(
    db,
    all.map(({ materialId }) => materialId),
  );
  const analyses = await findAnalyses(
    db,
    all.flatMap(({ analysisId }) => analysisId ?? []),
  );
  return ({ lines }: PointRow): TrialLine[] =>
    lines.flatMap(({ part, materialId, analysisId, amount }) => {
      const material = materials.get(materialId);
      if (!material) return [];
      const analysis = analysisId === null ? null : (analyses.get(analysisId) ?? null);
      return [{ part, material, analysis, amount: new Decimal(amount) }];
    });
}
