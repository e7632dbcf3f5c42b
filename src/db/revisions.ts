import type { Decimal } from "decimal.js";
import { and, asc, desc, eq, lt } from "drizzle-orm";
import type { Chemistry, Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Part } from "../chem/lines.ts";
import { findAnalyses, type PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import type { Atmosphere, Draft } from "./drafts.ts";
import { findMaterialsBySlug, type MaterialOnShelf } from "./materials.ts";
import { chemistries, materials, people, revisionLines, revisions } from "./schema/index.ts";

export type FoundLine = {
  position: number;
  part: Part;
  material: Pick<MaterialOnShelf, "id" | "slug" | "name" | "kind" | "hazards" | "stillSold">;
  /** What the line was pinned to when it was published. */
  analysis: PinnedAnalysis | null;
  amount: Decimal;
};

export type FoundRevision = {
  id: string;
  number: number;
  basedOn: number | null;
  author: { id: string; name: string };
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
  const [row] = await db
    .select({ revision: revisions, author: people.name, chemistry: chemistries.detail })
    .from(revisions)
    .innerJoin(people, eq(people.id, revisions.authorId))
    .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
    .where(and(eq(revisions.recipeId, recipeId), eq(revisions.number, number)));
  if (!row) return undefined;
  const { revision } = row;
  return {
    id: revision.id,
    number: revision.number,
    basedOn: revision.basedOn,
    author: { id: revision.authorId, name: row.author },
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
    lines: await findLines(db, revision.id),
    chemistry: row.chemistry,
  };
}

async function findLines(db: Db, revisionId: string): Promise<FoundLine[]> {
  const rows = await db
    .select({ line: revisionLines, slug: materials.slug })
    .from(revisionLines)
    .innerJoin(materials, eq(materials.id, revisionLines.materialId))
    .where(eq(revisionLines.revisionId, revisionId))
    .orderBy(asc(revisionLines.position));
  const shelf = await findMaterialsBySlug(
    db,
    rows.map(({ slug }) => slug),
  );
  const pinned = await findAnalyses(
    db,
    rows.flatMap(({ line }) => line.analysisId ?? []),
  );
  return rows.flatMap(({ line, slug }) => {
    const material = shelf.get(slug);
    if (!material) return [];
    const { position, part, amount } = line;
    const analysis = line.analysisId === null ? null : (pinned.get(line.analysisId) ?? null);
    return [{ position, part, material, analysis, amount }];
  });
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
