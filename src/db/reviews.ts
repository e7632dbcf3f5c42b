import { desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import type { Gap } from "../chem/evidence.ts";
import { moveWords } from "../chem/move-words.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { findEvidence } from "./evidence.ts";
import { findWriters } from "./judgements.ts";
import { putNote } from "./notes.ts";
import { powderChangeOf } from "./powder-changes.ts";
import type { FoundRecipe } from "./recipes.ts";
import type { FoundRevision } from "./revisions.ts";
import { type LookedAt, people, reviews, revisions, type verdicts } from "./schema/index.ts";
import { gapsOf } from "./standing-against.ts";
import { findTargets } from "./standing-targets.ts";
import { unsettleDigest } from "./unsettling.ts";

export type Verdict = (typeof verdicts)[number];

export type FoundReview = {
  id: string;
  revision: number;
  digest: string;
  verdict: Verdict;
  for: Use;
  reasons: string;
  lookedAt: LookedAt;
  by: { id: string; name: string };
  at: Date;
};

/** What reviewers said of a recipe's revisions, newest first. */
export async function listReviews(
  db: Db,
  { recipeId }: { recipeId: string },
): Promise<FoundReview[]> {
  const rows = await db
    .select({ review: reviews, number: revisions.number, name: people.name })
    .from(reviews)
    .innerJoin(revisions, eq(revisions.id, reviews.revisionId))
    .innerJoin(people, eq(people.id, reviews.by))
    .where(eq(reviews.recipeId, recipeId))
    .orderBy(desc(reviews.id));
  return rows.map(({ review, number, name }) => ({
    id: review.id,
    revision: number,
    digest: review.digest,
    verdict: review.verdict,
    for: review.for,
    reasons: review.reasons,
    lookedAt: review.lookedAt,
    by: { id: review.by, name },
    at: review.at,
  }));
}

/** What a reviewer has before them: what is missing for functional, and what the powders moved. */
export type Reviewable = {
  gaps: Gap[];
  moved: string[];
  /** The reader wrote it, or the first revision that says the same. */
  own: boolean;
  lookedAt: LookedAt;
};

/** What there is to look at before a verdict on a revision, for one reader. */
export async function findReviewable(
  db: Db,
  { revision, readerId }: { revision: FoundRevision; readerId: string },
): Promise<Reviewable> {
  const { id, digest, meltDigest, chemistry } = revision;
  const [target] = await findTargets(db, [id]);
  const known = (await findEvidence(db, [meltDigest])).get(meltDigest) ?? { tiles: [], tests: [] };
  const writers = (await findWriters(db, [{ id, digest }])).get(id);
  return {
    gaps: target ? gapsOf(target, known) : [],
    moved: (powderChangeOf(revision)?.moves ?? []).map(moveWords),
    own: writers?.has(readerId) ?? false,
    lookedAt: {
      engine: chemistry.engine,
      findings: chemistry.findings.map(({ rule, level, says }) => ({ rule, level, says })),
      tiles: known.tiles.map((tile) => tile.id),
      tests: known.tests.map((test) => test.id),
    },
  };
}

type Judging = Act & {
  by: string;
  recipe: Pick<FoundRecipe, "id" | "withdrawn">;
  revision: FoundRevision;
  verdict: Verdict;
  for: Use;
  reasons: string;
};

export type GivenReview =
  | { kind: "given"; id: string }
  | { kind: "own-content" }
  | { kind: "withdrawn" }
  | { kind: "decorative-only" }
  | { kind: "moved"; moved: string[] }
  | { kind: "missing"; gaps: Gap[] };

/**
 * Puts a reviewer's verdict on record. An objection also stands as a note until it is closed. The
 * caller has found that `by` is a reviewer or a manager; the database refuses what this refuses.
 */
export async function giveReview(db: Db, judging: Judging): Promise<GivenReview> {
  const { recipe, revision, verdict, reasons, by, at } = judging;
  return db.transaction(async (tx) => {
    const reviewable = await findReviewable(tx, { revision, readerId: by });
    const refused = whyRefused(judging, reviewable);
    if (refused) return refused;
    const id = uuidv7();
    const noteId = verdict === "object" ? await putObjection(tx, judging) : null;
    await tx.insert(reviews).values({
      id,
      recipeId: recipe.id,
      revisionId: revision.id,
      digest: revision.digest,
      verdict,
      for: judging.for,
      reasons,
      lookedAt: reviewable.lookedAt,
      noteId,
      by,
      at,
    });
    await unsettleDigest(tx, revision.digest);
    const { number, digest } = revision;
    await appendEvent(
      tx,
      { by, at },
      {
        kind: happened[verdict],
        subject: "recipe",
        subjectId: recipe.id,
        detail: { review: id, number, digest, for: judging.for },
      },
    );
    return { kind: "given", id };
  });
}

const happened: Readonly<Record<Verdict, string>> = {
  approve: "approved",
  object: "objected to",
  remark: "remarked on",
};

function whyRefused(
  { recipe, revision, verdict, for: use }: Judging,
  { own, moved, gaps }: Reviewable,
): Exclude<GivenReview, { kind: "given" }> | undefined {
  if (own) return { kind: "own-content" };
  if (verdict !== "approve") return undefined;
  if (recipe.withdrawn) return { kind: "withdrawn" };
  if (moved.length > 0) return { kind: "moved", moved };
  if (use === "decorative") return undefined;
  if (revision.use === "decorative") return { kind: "decorative-only" };
  return gaps.length > 0 ? { kind: "missing", gaps } : undefined;
}

async function putObjection(tx: Db, { recipe, revision, reasons, by, at }: Judging) {
  const put = await putNote(tx, {
    recipeId: recipe.id,
    revision,
    anchor: { kind: "whole" },
    blocking: true,
    text: reasons,
    by,
    at,
  });
  if (put.kind !== "put") throw new Error("a note on the whole always has a place");
  return put.id;
}
