import { and, eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import type { Draft } from "./drafts.ts";
import { appendEvents, type Happening } from "./events.ts";
import { type Author, revisionRows } from "./publishing-rows.ts";
import {
  chemistries,
  recipes,
  reviewRequests,
  revisionLines,
  revisionStandings,
  revisions,
} from "./schema/index.ts";
import { unsettleDigest } from "./unsettling.ts";

/** The next revision of one recipe, made from its head of that number. */
export type Next = { recipeId: string; basedOn: number; draft: Draft };

export type NextPublished =
  | { kind: "published"; numbers: Map<string, number> }
  | { kind: "stale"; recipeIds: string[] };

/**
 * The next revisions of several recipes by one author, each with the reviewers asked to look at it:
 * all of them or, where a head is no longer the one that was made from, none. Each leaves what
 * publishing it and asking for its review alone would.
 *
 * @returns the new numbers by the recipe, or the recipes whose heads moved.
 */
export async function publishNext(
  db: Db,
  { next, by, at }: Author & { next: readonly Next[] },
): Promise<NextPublished> {
  try {
    const numbers = await db.transaction((tx) => publishAll(tx, { next, by, at }));
    return { kind: "published", numbers };
  } catch (error) {
    if (error instanceof HeadsMoved) return { kind: "stale", recipeIds: error.recipeIds };
    throw error;
  }
}

/** Ends the transaction, so that nothing of it stays. */
class HeadsMoved extends Error {
  readonly recipeIds: string[];

  constructor(recipeIds: string[]) {
    super("the heads of some recipes moved");
    this.recipeIds = recipeIds;
  }
}

async function publishAll(
  tx: Db,
  { next, by, at }: Author & { next: readonly Next[] },
): Promise<Map<string, number>> {
  const numbers = await moveHeads(tx, next);
  const made = next.map(({ recipeId, basedOn, draft }) => {
    const number = numbers.get(recipeId) ?? basedOn + 1;
    const rows = revisionRows({ recipeId, number, basedOn, draft, by, at });
    const { id: revisionId, digest } = rows.revision;
    const request = { id: uuidv7(), revisionId, for: draft.use, by, at };
    const subject = { subject: "recipe", subjectId: recipeId } as const;
    const happenings: Happening[] = [
      { ...subject, kind: "revised", detail: { number, digest } },
      { ...subject, kind: "review asked for", detail: { number, digest, for: draft.use } },
    ];
    return { ...rows, request, happenings };
  });
  if (made.length === 0) return numbers;
  await tx.insert(revisions).values(made.map(({ revision }) => revision));
  await tx.insert(revisionLines).values(made.flatMap(({ lines }) => lines));
  await tx.insert(chemistries).values(made.map(({ chemistry }) => chemistry));
  await tx.insert(revisionStandings).values(made.map(({ standing }) => standing));
  await tx.insert(reviewRequests).values(made.map(({ request }) => request));
  for (const { revision } of made) await unsettleDigest(tx, revision.digest);
  const act = { by, at };
  await appendEvents(
    tx,
    made.flatMap(({ happenings }) => happenings.map((happening) => ({ act, happening }))),
  );
  return numbers;
}

/** In the order of the recipes' ids, so that two who move the same heads never wait for each other. */
async function moveHeads(tx: Db, next: readonly Next[]): Promise<Map<string, number>> {
  const numbers = new Map<string, number>();
  const stale: string[] = [];
  for (const { recipeId, basedOn } of [...next].sort((a, b) =>
    a.recipeId < b.recipeId ? -1 : 1,
  )) {
    const [moved] = await tx
      .update(recipes)
      .set({ head: sql`${recipes.head} + 1` })
      .where(and(eq(recipes.id, recipeId), eq(recipes.head, basedOn)))
      .returning({ number: recipes.head });
    if (moved) numbers.set(recipeId, moved.number);
    else stale.push(recipeId);
  }
  if (stale.length > 0) throw new HeadsMoved(stale);
  return numbers;
}
