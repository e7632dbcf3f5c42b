import { desc, inArray } from "drizzle-orm";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { analyses, lots } from "./schema/index.ts";

/** An analysis of the newest lot itself, or the material's newest where nobody analysed that lot. */
export type LotAnalysis = { is: "of the lot" | "not this lot"; analysis: PinnedAnalysis };

/**
 * What the newest lot of each material is made of, by the material's id. A material that was never
 * bought, or has no analysis at all, has no entry.
 */
export async function findNewestLotAnalyses(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, LotAnalysis>> {
  if (materialIds.length === 0) return new Map();
  const asked = [...new Set(materialIds)];
  const newestLots = await db
    .selectDistinctOn([lots.materialId], { of: lots.materialId, analysisId: lots.analysisId })
    .from(lots)
    .where(inArray(lots.materialId, asked))
    .orderBy(lots.materialId, desc(lots.id));
  const standIn = await findNewestAnalysisIds(db, asked);
  const chosen = newestLots.map(({ of, analysisId }) => ({
    of,
    id: analysisId ?? standIn.get(of) ?? "",
    is: analysisId === null ? ("not this lot" as const) : ("of the lot" as const),
  }));
  const found = await findAnalyses(
    db,
    chosen.flatMap(({ id }) => (id === "" ? [] : [id])),
  );
  return new Map(
    chosen.flatMap(({ of, id, is }) => {
      const analysis = found.get(id);
      return analysis ? [[of, { is, analysis }]] : [];
    }),
  );
}

/** The newest analysis of each material that has any, in use or not: material id → analysis id. */
export async function findNewestAnalysisIds(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, string>> {
  if (materialIds.length === 0) return new Map();
  const newest = await db
    .selectDistinctOn([analyses.materialId], { of: analyses.materialId, id: analyses.id })
    .from(analyses)
    .where(inArray(analyses.materialId, [...new Set(materialIds)]))
    .orderBy(analyses.materialId, desc(analyses.id));
  return new Map(newest.map(({ of, id }) => [of, id]));
}
