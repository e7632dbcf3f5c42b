import { and, eq, type SQLWrapper, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { importedThings, importWithdrawals } from "./schema/index.ts";

/**
 * The ids of materials that came with an import which was taken back, and that nothing else has come
 * to use: no lot was bought, and every recipe with them came with the same import and is withdrawn.
 * They stay on record under their addresses, and are offered to nobody.
 */
export const takenBackMaterials = (db: Db) =>
  db
    .select({ id: importedThings.thingId })
    .from(importedThings)
    .innerJoin(importWithdrawals, eq(importWithdrawals.importId, importedThings.importId))
    .where(
      and(
        eq(importedThings.noun, "material"),
        sql`not exists (select 1 from lots where lots.material_id = ${importedThings.thingId})`,
        sql`not exists (
          select 1 from revision_lines l
          join revisions r on r.id = l.revision_id
          where l.material_id = ${importedThings.thingId}
          and not (
            exists (select 1 from imported_things t where t.noun = 'recipe'
              and t.thing_id = r.recipe_id and t.import_id = ${importedThings.importId})
            and coalesce((select w.withdrawn from withdrawals w
              where w.recipe_id = r.recipe_id order by w.id desc limit 1), false)))`,
      ),
    );

/** Which of these materials nobody is offered any more. */
export async function listTakenBack(db: Db, ids: readonly string[]): Promise<Set<string>> {
  if (ids.length === 0) return new Set();
  const rows = await takenBackMaterials(db);
  const asked = new Set(ids);
  return new Set(rows.map(({ id }) => id).filter((id) => asked.has(id)));
}

/** Whether an analysis came with an import that was taken back: then it is never put in use. */
export async function isAnalysisTakenBack(db: Db, analysisId: string): Promise<boolean> {
  const rows = await db
    .select({ id: importedThings.thingId })
    .from(importedThings)
    .innerJoin(importWithdrawals, eq(importWithdrawals.importId, importedThings.importId))
    .where(and(eq(importedThings.noun, "analysis"), eq(importedThings.thingId, analysisId)));
  return rows.length > 0;
}

/** That a material is none of those, for the WHERE of a list. */
export const stillOffered = (db: Db, materialId: SQLWrapper) =>
  sql`${materialId} not in ${takenBackMaterials(db)}`;
