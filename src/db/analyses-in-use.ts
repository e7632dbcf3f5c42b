import { and, desc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { analyses, analysesInUse, people } from "./schema/index.ts";
import { isAnalysisTakenBack } from "./taken-back.ts";
import { unsettleMaterial } from "./unsettling.ts";

/** The analysis in use of each material that has one: material id → analysis id. */
export async function findInUse(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, string>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, analysisId, id } = analysesInUse;
  const rows = await db
    .selectDistinctOn([materialId], { materialId, analysisId })
    .from(analysesInUse)
    .where(inArray(materialId, [...materialIds]))
    .orderBy(materialId, desc(id));
  return new Map(rows.map((row) => [row.materialId, row.analysisId]));
}

/** An analysis that came into use. */
export type InUse = {
  analysisId: string;
  since: Date;
  by: { id: string; name: string };
  why: string;
};

/** What was put in use for a material, newest first: the first is in use now. */
export async function listInUse(db: Db, materialId: string): Promise<InUse[]> {
  const rows = await db
    .select({ use: analysesInUse, by: people.name })
    .from(analysesInUse)
    .innerJoin(people, eq(people.id, analysesInUse.by))
    .where(eq(analysesInUse.materialId, materialId))
    .orderBy(desc(analysesInUse.id));
  return rows.map(({ use, by }) => ({
    analysisId: use.analysisId,
    since: use.since,
    by: { id: use.by, name: by },
    why: use.why,
  }));
}

type Use = Act & { by: string; materialId: string; analysisId: string; why: string };

/** Writes that an analysis is in use, in the transaction of the change that it belongs to. */
export async function keepInUse(
  tx: Db,
  { materialId, analysisId, why, by, at }: Use,
): Promise<void> {
  await tx.insert(analysesInUse).values({
    id: uuidv7(),
    materialId,
    analysisId,
    since: at,
    by,
    why,
  });
  await unsettleMaterial(tx, materialId);
}

export type PutInUse =
  | { kind: "put-in-use" }
  | { kind: "in-use-already" }
  | { kind: "no-analysis" }
  /** It came with an import that was taken back. */
  | { kind: "taken-back" };

/**
 * Has new revisions pin this analysis of the material from now on. Published ones keep theirs.
 * `no-analysis` where the material has no such analysis.
 */
export async function putInUse(db: Db, { materialId, analysisId, ...act }: Use): Promise<PutInUse> {
  return db.transaction(async (tx) => {
    const [analysis] = await tx
      .select({ digest: analyses.digest })
      .from(analyses)
      .where(and(eq(analyses.id, analysisId), eq(analyses.materialId, materialId)));
    if (!analysis) return { kind: "no-analysis" };
    if (await isAnalysisTakenBack(tx, analysisId)) return { kind: "taken-back" };
    const before = (await findInUse(tx, [materialId])).get(materialId) ?? null;
    if (before === analysisId) return { kind: "in-use-already" };
    await keepInUse(tx, { materialId, analysisId, ...act });
    await appendEvent(tx, act, {
      kind: "analysis put in use",
      subject: "material",
      subjectId: materialId,
      detail: { analysis: analysisId, digest: analysis.digest, before },
    });
    return { kind: "put-in-use" };
  });
}
