import { and, eq, ne, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { analyses, analysesInUse, materials, people } from "./schema/index.ts";
import { type Waiter, waitingColumns } from "./waiting-rows.ts";

/** Analyses that members posted after the one in use came into use, and that never were in use. */
export const waitingAnalyses = (db: Db, _: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "analysis",
        slug: materials.slug,
        name: materials.name,
        ref: analyses.id,
        detail: analyses.source,
        at: analyses.addedAt,
        by: people.name,
      }),
    )
    .from(analyses)
    .innerJoin(materials, eq(materials.id, analyses.materialId))
    .innerJoin(people, eq(people.id, analyses.addedBy))
    .where(
      and(
        ne(people.role, "manager"),
        sql`not exists (select 1 from ${analysesInUse} u where u.material_id = ${materials.id}
          and (u.analysis_id = ${analyses.id} or u.id > ${analyses.id}))`,
      ),
    );
