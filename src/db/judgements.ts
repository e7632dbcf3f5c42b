import { asc, eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { reviews, revisionCoauthors, revisions } from "./schema/index.ts";
import type { Judgement } from "./standing.ts";

export type Judged = {
  /** Each reviewer's newest verdict that approves or objects. */
  newest: Judgement[];
  remarked: boolean;
};

/**
 * What reviewers said of revisions that say the same, wherever they said it: revision id → verdicts.
 * Whether a reviewer wrote the revision is asked for each of them, so that no copy or fork makes
 * somebody's own content approved.
 */
export async function readJudgements(
  db: Db,
  targets: readonly { id: string; digest: string }[],
): Promise<Map<string, Judged>> {
  const digests = [...new Set(targets.map(({ digest }) => digest))];
  if (digests.length === 0) return new Map();
  const rows = await db
    .select({
      id: reviews.id,
      digest: reviews.digest,
      verdict: reviews.verdict,
      for: reviews.for,
      by: reviews.by,
      at: reviews.at,
    })
    .from(reviews)
    .where(inArray(reviews.digest, digests))
    .orderBy(asc(reviews.id));
  const judgedDigests = new Set(rows.map(({ digest }) => digest));
  const judged = targets.filter(({ digest }) => judgedDigests.has(digest));
  const writers = await findWriters(db, judged);
  return new Map(
    judged.map(({ id, digest }) => {
      const said = rows.filter((row) => row.digest === digest);
      const own = writers.get(id) ?? new Set();
      return [id, { newest: newestOf(said, own), remarked: said.some(isRemark) }];
    }),
  );
}

type Said = {
  id: string;
  verdict: "approve" | "object" | "remark";
  for: Judgement["for"];
  by: string;
  at: Date;
};

const isRemark = ({ verdict }: Said): boolean => verdict === "remark";

/** Each reviewer's newest verdict that approves or objects, and whether it is on content of their own. */
export function newestOf(said: readonly Said[], writers: ReadonlySet<string>): Judgement[] {
  const newest = new Map<string, Judgement>();
  for (const { id, verdict, for: use, by, at } of said) {
    if (verdict === "remark") continue;
    const before = newest.get(by);
    const approvedBefore = before?.verdict === "approve" || (before?.approvedBefore ?? false);
    newest.set(by, { id, verdict, for: use, at, own: writers.has(by), approvedBefore });
  }
  return [...newest.values()];
}

/**
 * Whose content each revision is: its author and co-authors, and those of the first revision that
 * ever said the same. Revision id → person ids.
 */
export async function findWriters(
  db: Db,
  targets: readonly { id: string; digest: string }[],
): Promise<Map<string, Set<string>>> {
  if (targets.length === 0) return new Map();
  const digests = [...new Set(targets.map(({ digest }) => digest))];
  const firsts = await db
    .selectDistinctOn([revisions.digest], { id: revisions.id, digest: revisions.digest })
    .from(revisions)
    .where(inArray(revisions.digest, digests))
    .orderBy(revisions.digest, asc(revisions.publishedAt), asc(revisions.id));
  const first = new Map(firsts.map(({ id, digest }) => [digest, id]));
  const asked = [...new Set([...targets.map(({ id }) => id), ...first.values()])];
  const rows = await db
    .select({ id: revisions.id, author: revisions.authorId, coauthor: revisionCoauthors.personId })
    .from(revisions)
    .leftJoin(revisionCoauthors, eq(revisionCoauthors.revisionId, revisions.id))
    .where(inArray(revisions.id, asked));
  return new Map(
    targets.map(({ id, digest }) => {
      const own = rows.filter((row) => row.id === id || row.id === first.get(digest));
      return [id, new Set(own.flatMap(({ author, coauthor }) => [author, coauthor ?? author]))];
    }),
  );
}
