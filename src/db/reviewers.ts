import { and, asc, eq, inArray, isNull, lt } from "drizzle-orm";
import type { Db } from "./client.ts";
import { findWriters } from "./judgements.ts";
import { people, revisionCoauthors, revisions } from "./schema/index.ts";

/** Somebody who may review a revision; `wroteEarlier` where an earlier revision of the recipe is theirs. */
export type Reviewer = { id: string; name: string; wroteEarlier: boolean };

/** Reviewers and managers who did not write a revision, by name. */
export async function listReviewers(
  db: Db,
  revision: { id: string; recipeId: string; number: number; digest: string },
): Promise<Reviewer[]> {
  const writers = (await findWriters(db, [revision])).get(revision.id) ?? new Set();
  const earlier = await findEarlierWriters(db, revision);
  const rows = await db
    .select({ id: people.id, name: people.name })
    .from(people)
    .where(and(inArray(people.role, ["reviewer", "manager"]), isNull(people.removedAt)))
    .orderBy(asc(people.nameKey));
  return rows
    .filter(({ id }) => !writers.has(id))
    .map((person) => ({ ...person, wroteEarlier: earlier.has(person.id) }));
}

async function findEarlierWriters(
  db: Db,
  { recipeId, number }: { recipeId: string; number: number },
): Promise<Set<string>> {
  const rows = await db
    .selectDistinct({ author: revisions.authorId, coauthor: revisionCoauthors.personId })
    .from(revisions)
    .leftJoin(revisionCoauthors, eq(revisionCoauthors.revisionId, revisions.id))
    .where(and(eq(revisions.recipeId, recipeId), lt(revisions.number, number)));
  return new Set(rows.flatMap(({ author, coauthor }) => [author, coauthor ?? author]));
}
