import { and, asc, eq, gt, sql } from "drizzle-orm";
import { type Chemistry, type ChemistryRequest, workOut } from "../chem/chemistry.ts";
import { type Difference, differencesBetween } from "../chem/differences.ts";
import { type Move, movesBetween } from "../chem/moves.ts";
import type { PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { chemistryLines, type DraftLine } from "./drafts.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { type FoundLine, type FoundRevision, findRevisions } from "./revisions.ts";
import { analysesInUse, recipes, revisionLines, revisions } from "./schema/index.ts";

export type ChangedPowder = {
  material: { slug: string; name: string };
  pinned: PinnedAnalysis | null;
  inUse: PinnedAnalysis | null;
};

/** A revision worked out with the analyses in use now, beside the ones that it is pinned to. */
export type PowderChange = {
  powders: ChangedPowder[];
  now: Chemistry;
  differences: Difference[];
  /** What moved further than an approval bears. */
  moves: Move[];
};

/** An analysis that would be in use for a material, were somebody to put it so. */
export type Supposed = { materialId: string; analysis: PinnedAnalysis };

/**
 * What today's powders do to a revision, or null where each line is pinned to what is in use.
 * `supposed` is taken as in use for its material, whatever is.
 */
export function powderChangeOf(revision: FoundRevision, supposed?: Supposed): PowderChange | null {
  const inUseOf = ({ id, inUse }: FoundLine["material"]): PinnedAnalysis | null =>
    id === supposed?.materialId ? supposed.analysis : inUse;
  const powders = revision.lines.flatMap(({ material, analysis: pinned }) =>
    pinned?.id === inUseOf(material)?.id ? [] : [{ material, pinned, inUse: inUseOf(material) }],
  );
  if (powders.length === 0) return null;
  const before = requestOf(revision, revision.lines);
  const after = requestOf(
    revision,
    revision.lines.map((line) => ({ ...line, analysis: inUseOf(line.material) })),
  );
  const now = workOut(after);
  return {
    powders: [...new Map(powders.map((powder) => [powder.material.slug, powder])).values()],
    now,
    differences: differencesBetween(before, after),
    // By one engine on both sides: what a new engine sees otherwise is told elsewhere.
    moves: movesBetween(workOut(before), now),
  };
}

const requestOf = (
  { use, cones }: FoundRevision,
  lines: readonly DraftLine[],
): ChemistryRequest => ({
  lines: chemistryLines(lines),
  use,
  cone: cones.high,
});

export type ChangedRecipe = { slug: string; name: string; number: number; change: PowderChange };

/** Heads that are pinned to another analysis than the one in use, in the order of their recipes' ids. */
export async function listPowderChanges(
  db: Db,
  { reader, after, limit }: { reader: Reader; after?: string | undefined; limit: number },
): Promise<{ items: ChangedRecipe[]; next: string | null }> {
  const inUse = db
    .selectDistinctOn([analysesInUse.materialId], {
      materialId: analysesInUse.materialId,
      analysisId: analysesInUse.analysisId,
    })
    .from(analysesInUse)
    .orderBy(analysesInUse.materialId, sql`${analysesInUse.id} desc`)
    .as("in_use");
  // The few lines first: one by one, a hundred thousand heads take seconds.
  const changed = db
    .selectDistinct({ revisionId: revisionLines.revisionId })
    .from(revisionLines)
    .innerJoin(inUse, eq(inUse.materialId, revisionLines.materialId))
    .where(sql`${revisionLines.analysisId} is distinct from ${inUse.analysisId}`)
    .as("changed");
  const heads = await db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      revisionId: revisions.id,
    })
    .from(recipes)
    .innerJoin(
      revisions,
      and(eq(revisions.recipeId, recipes.id), eq(revisions.number, recipes.head)),
    )
    .innerJoin(changed, eq(changed.revisionId, revisions.id))
    .where(and(readableBy(reader), after === undefined ? undefined : gt(recipes.id, after)))
    .orderBy(asc(recipes.id))
    .limit(limit + 1);
  const page = heads.slice(0, limit);
  const found = await findRevisions(
    db,
    page.map(({ revisionId }) => revisionId),
  );
  const byId = new Map(found.map((revision) => [revision.id, revision]));
  const items = page.flatMap(({ slug, name, revisionId }) => {
    const revision = byId.get(revisionId);
    const change = revision && powderChangeOf(revision);
    return revision && change ? [{ slug, name, number: revision.number, change }] : [];
  });
  return { items, next: heads.length > limit ? (page.at(-1)?.id ?? null) : null };
}
