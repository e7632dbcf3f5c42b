import { and, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Use } from "../src/chem/chemistry.ts";
import { sha256 } from "../src/db/digests.ts";
import {
  noteClosings,
  noteMentions,
  notes,
  noteTexts,
  offers,
  recipes,
  reviewRequests,
  revisionStandings,
  revisions,
  type standings,
} from "../src/db/schema/index.ts";
import type { TestStudio } from "./studio.ts";

export const at = new Date("2026-04-01T10:00:00Z");

/** A revision by its recipe's address, as its row stands. */
export async function revisionOf({ db }: TestStudio, slug: string, number = 1) {
  const [row] = await db
    .select({ revision: revisions })
    .from(revisions)
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(eq(recipes.slug, slug), eq(revisions.number, number)));
  if (!row) throw new Error(`${slug} has no revision ${number}`);
  return row.revision;
}

type Noted = { by: string; blocking?: boolean; replyTo?: string; mentions?: string[]; at?: Date };

/** A note as it stands on record. @returns its id. */
export async function putRow(studio: TestStudio, slug: string, given: Noted): Promise<string> {
  const { by, blocking = false, replyTo = null, mentions = [] } = given;
  const revision = await revisionOf(studio, slug);
  const noteId = uuidv7();
  const words = "It ran over the foot.";
  await studio.db.insert(notes).values({
    id: noteId,
    recipeId: revision.recipeId,
    revisionId: revision.id,
    anchor: "whole",
    snapshot: { says: "revision 1" },
    blocking,
    replyTo,
    textDigest: sha256(words),
    by,
    at: given.at ?? at,
  });
  await studio.db.insert(noteTexts).values({ noteId, text: words });
  for (const personId of mentions)
    await studio.db.insert(noteMentions).values({ noteId, personId });
  return noteId;
}

export const close = async (
  studio: TestStudio,
  noteId: string,
  { replyId, by }: { replyId: string; by: string },
) => studio.db.insert(noteClosings).values({ noteId, replyId, overruled: false, by, at });

/** What a revision counts as, as if it had been settled so. */
export async function stand(
  studio: TestStudio,
  slug: string,
  standing: { is: (typeof standings)[number]; for?: Use; validUntil?: Date },
  number = 1,
): Promise<void> {
  const { id: revisionId } = await revisionOf(studio, slug, number);
  const { is, validUntil = null } = standing;
  const use = is === "approved" ? (standing.for ?? "decorative") : null;
  const row = { is, for: use, because: [`It is ${is}.`], validUntil, basis: [], unsettled: false };
  await studio.db
    .insert(revisionStandings)
    .values({ revisionId, marks: 0, ...row })
    .onConflictDoUpdate({ target: revisionStandings.revisionId, set: row });
}

export async function askReview(studio: TestStudio, slug: string, by: string): Promise<void> {
  const { id: revisionId } = await revisionOf(studio, slug);
  const asked = { id: uuidv7(), revisionId, for: "decorative" as const, by, at };
  await studio.db.insert(reviewRequests).values(asked);
}

/** An offer of one recipe's first revision to another. @returns its id. */
export async function offer(studio: TestStudio, to: string, from: string, by: string) {
  const { recipeId, id: baseId } = await revisionOf(studio, to);
  const { id: revisionId } = await revisionOf(studio, from);
  const id = uuidv7();
  await studio.db
    .insert(offers)
    .values({ id, recipeId, revisionId, baseId, why: "It melts better.", by, at });
  return id;
}
