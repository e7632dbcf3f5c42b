import { and, asc, eq, inArray } from "drizzle-orm";
import type { Move } from "../chem/moves.ts";
import type { Db } from "./client.ts";
import { powderChangeOf, type Supposed } from "./powder-changes.ts";
import { findRevisions } from "./revisions.ts";
import { recipes, revisionLines, revisionStandings, revisions } from "./schema/index.ts";
import { isApprovedAt } from "./standings.ts";

/** An approved revision, and what would move in it further than an approval bears. */
export type EndedApproval = { slug: string; name: string; number: number; moves: Move[] };

/** Approvals that would end if an analysis came into use for its material, before it does. */
export async function listApprovalsEnded(
  db: Db,
  { supposed, now }: { supposed: Supposed; now: Date },
): Promise<EndedApproval[]> {
  const withMaterial = db
    .select({ id: revisionLines.revisionId })
    .from(revisionLines)
    .where(eq(revisionLines.materialId, supposed.materialId));
  const approved = await db
    .select({ id: revisions.id, slug: recipes.slug, name: recipes.name, number: revisions.number })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(isApprovedAt(now), inArray(revisions.id, withMaterial)))
    .orderBy(asc(recipes.nameKey), asc(revisions.number));
  const found = await findRevisions(
    db,
    approved.map(({ id }) => id),
  );
  const moves = new Map(
    found.map((revision) => [revision.id, powderChangeOf(revision, supposed)?.moves ?? []]),
  );
  return approved
    .map(({ id, ...revision }) => ({ ...revision, moves: moves.get(id) ?? [] }))
    .filter((revision) => revision.moves.length > 0);
}
