import type { Decimal } from "decimal.js";
import { and, asc, desc, eq, inArray, lt, type SQL } from "drizzle-orm";
import type { Chemistry, Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Part } from "../chem/lines.ts";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import { listCoauthors } from "./coauthors.ts";
import type { Atmosphere, Draft } from "./drafts.ts";
import { findMaterialsBySlug, type MaterialOnShelf } from "./materials.ts";
import { chemistries, materials, people, revisionLines, revisions } from "./schema/index.ts";

export type FoundLine = {
  position: number;
  part: Part;
  material: MaterialOnShelf;
  /** What the line was pinned to when it was published. */
  analysis: PinnedAnalysis | null;
  amount: Decimal;
};

export type FoundRevision = {
  id: string;
  recipeId: string;
  number: number;
  basedOn: number | null;
  author: { id: string; name: string };
  /** Who wrote it beside the author: whose offer was taken into it. In the order of their ids. */
  coauthors: { id: string; name: string }[];
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  about: string;
  message: string;
  meltDigest: string;
  digest: string;
  publishedAt: Date;
  lines: FoundLine[];
  chemistry: Chemistry;
};

/** One revision of a recipe with its lines and chemistry. The recipe was found through the reader's scope. */
export async function findRevision(
  db: Db,
  { recipeId, number }: { recipeId: string; number: number },
): Promise<FoundRevision | undefined> {
  const [found] = await readRevisions(
    db,
    and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)),
  );
  return found;
}

/** Several revisions by their ids, in the order of their ids. */
export const findRevisions = (db: Db, ids: readonly string[]): Promise<FoundRevision[]> =>
  ids.length === 0 ? Promise.resolve([]) : readRevisions(db, inArray(revisions.id, [...ids]));

async function readRevisions(db: Db, which: SQL | undefined): Promise<FoundRevision[]> {
  const rows = await db
    .select({ revision: revisions, author: people.name, chemistry: chemistries.detail })
    .from(revisions)
    .innerJoin(people, eq(people.id, revisions.authorId))
    .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
    .where(which)
    .orderBy(asc(revisions.id));
  const ids = rows.map(({ revision }) => revision.id);
  const lines = await findLines(db, ids);
  const coauthors = await listCoauthors(db, ids);
  return rows.map(({ revision, author, chemistry }) => ({
    id: revision.id,
    recipeId: revision.recipeId,
    number: revision.number,
    basedOn: revision.basedOn,
    author: { id: revision.authorId, name: author },
    coauthors: coauthors.get(revision.id) ?? [],
    use: revision.use,
    // The schema bounds their places in the list of cones that they were taken from.
    cones: { low: revision.coneLow as Cone, high: revision.coneHigh as Cone },
    atmosphere: revision.atmosphere,
    surface: revision.surface,
    about: revision.about,
    message: revision.message,
    meltDigest: revision.meltDigest,
    digest: revision.digest,
    publishedAt: revision.publishedAt,
    lines: lines.get(revision.id) ?? [],
    chemistry,
  }));
}

/** The lines of some revisions, each in order: revision id → lines. */
export async function findLines(
  db: Db,
  revisionIds: readonly string[],
): Promise<Map<string, FoundLine[]>> {
  if (revisionIds.length === 0) return new Map();
  const rows = await db
    .select({ line: revisionLines, slug: materials.slug })
    .from(revisionLines)
    .innerJoin(materials, eq(materials.id, revisionLines.materialId))
    .where(inArray(revisionLines.revisionId, [...revisionIds]))
    .orderBy(asc(revisionLines.revisionId), asc(revisionLines.position));
  const shelf = await findMaterialsBySlug(
    db,
    rows.map(({ slug }) => slug),
  );
  // Most are pinned to what is in use still, which came with the shelf.
  const pinned = new Map([...shelf.values()].map(({ inUse }) => [inUse?.id, inUse]));
  const older = rows.flatMap(({ line }) =>
    line.analysisId === null || pinned.has(line.analysisId) ? [] : line.analysisId,
  );
  for (const [id, analysis] of await findAnalyses(db, older)) pinned.set(id, analysis);
  const lines = new Map<string, FoundLine[]>();
  for (const { line, slug } of rows) {
    const material = shelf.get(slug);
    if (!material) continue;
    const { position, part, amount } = line;
    const analysis = line.analysisId === null ? null : (pinned.get(line.analysisId) ?? null);
    const known = lines.get(line.revisionId) ?? [];
    lines.set(line.revisionId, [...known, { position, part, material, analysis, amount }]);
  }
  return lines;
}

/** A revision as somebody would publish it again, word for word and with what it is pinned to. */
export const draftOf = (revision: FoundRevision, message: string): Draft => ({
  lines: revision.lines,
  use: revision.use,
  cones: revision.cones,
  atmosphere: revision.atmosphere,
  surface: revision.surface,
  about: revision.about,
  message,
});

/** A recipe's revisions, newest first, below `before` where it is given. */
export const listRevisions = (
  db: Db,
  { recipeId, before, limit }: { recipeId: string; before?: number | undefined; limit: number },
) =>
  db
    .select({
      number: revisions.number,
      basedOn: revisions.basedOn,
      author: people.name,
      message: revisions.message,
      use: revisions.use,
      digest: revisions.digest,
      publishedAt: revisions.publishedAt,
    })
    .from(revisions)
    .innerJoin(people, eq(people.id, revisions.authorId))
    .where(
      and(
        eq(revisions.recipeId, recipeId),
        before === undefined ? undefined : lt(revisions.number, before),
      ),
    )
    .orderBy(desc(revisions.number))
    .limit(limit);
