import { v7 as uuidv7 } from "uuid";
import { cones } from "../chem/cones.ts";
import { chemistryRow } from "./chemistries.ts";
import { type Draft, meltDigest, revisionDigest } from "./drafts.ts";
import { foldName } from "./names.ts";
import type { recipes, revisionStandings, revisions, Visibility } from "./schema/index.ts";
import { unreviewed } from "./standing.ts";

export type Author = { by: string; at: Date };

/** A recipe that is new to the library. `forkedFrom` is the id of a revision. */
export type Offered = Author & {
  name: string;
  shownTo: Visibility;
  forkedFrom?: string | undefined;
};

/** The row of a new recipe at an address. */
export const recipeRow = (
  { name, shownTo, forkedFrom, by, at }: Offered,
  { id, slug }: { id: string; slug: string },
): typeof recipes.$inferInsert => ({
  id,
  slug,
  name,
  nameKey: foldName(name),
  ownerId: by,
  head: 1,
  shownTo,
  forkedFrom: forkedFrom ?? null,
  addedAt: at,
});

type Numbered = Author & { recipeId: string; number: number; basedOn: number | null; draft: Draft };

/**
 * The rows of one revision: itself, its lines, its chemistry and a standing that is yet to be
 * settled, since another revision that says the same may be approved. The draft must have no faults.
 */
export function revisionRows({ recipeId, number, basedOn, draft, by, at }: Numbered) {
  const id = uuidv7();
  const melt = meltDigest(draft.lines);
  const revision: typeof revisions.$inferInsert = {
    id,
    recipeId,
    number,
    basedOn,
    authorId: by,
    use: draft.use,
    coneLow: draft.cones.low,
    coneHigh: draft.cones.high,
    coneLowPlace: cones.indexOf(draft.cones.low),
    coneHighPlace: cones.indexOf(draft.cones.high),
    atmosphere: draft.atmosphere,
    surface: draft.surface,
    about: draft.about,
    message: draft.message,
    meltDigest: melt,
    digest: revisionDigest(melt, draft),
    publishedAt: at,
  };
  const lines = draft.lines.map(({ part, material, analysis, amount }, position) => ({
    revisionId: id,
    position,
    part,
    materialId: material.id,
    analysisId: analysis?.id ?? null,
    amount,
  }));
  const standing: typeof revisionStandings.$inferInsert = {
    revisionId: id,
    is: "draft",
    because: [unreviewed],
    basis: [],
    unsettled: true,
    marks: 0,
  };
  return { revision, lines, chemistry: chemistryRow({ revisionId: id, draft }), standing };
}

/** What the record says of a recipe that was published for the first time. */
export const publication = (
  recipeId: string,
  { digest, forkedFrom }: { digest: string; forkedFrom?: string | undefined },
) =>
  ({
    kind: forkedFrom ? "forked" : "published",
    subject: "recipe",
    subjectId: recipeId,
    detail: { number: 1, digest, ...(forkedFrom && { forkedFrom }) },
  }) as const;
