import { and, asc, desc, eq, inArray, lte, or, type Placeholder, type SQL, sql } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Db } from "./client.ts";
import { appendEvents } from "./events.ts";
import { recipes, revisionStandings, revisions } from "./schema/index.ts";
import { type Standing, standingOf } from "./standing.ts";
import { readFacts } from "./standing-facts.ts";
import { findTargets, type Target } from "./standing-targets.ts";

/** Approved as lists may show it: settled, and not past its time. */
export const isApprovedAt = (now: Date | Placeholder): SQL =>
  sql`(${revisionStandings.is} = 'approved' and not ${revisionStandings.unsettled} and (${revisionStandings.validUntil} is null or ${revisionStandings.validUntil} > ${now instanceof Date ? now.toISOString() : now}))`;

/** What has to be derived anew before it can be believed. */
const isDoubtfulAt = (now: Date): SQL | undefined =>
  or(
    eq(revisionStandings.unsettled, true),
    and(eq(revisionStandings.is, "approved"), lte(revisionStandings.validUntil, now)),
  );

/** What some revisions count as: revision id → standing. What is in doubt is settled on the way. */
export async function findStandings(
  db: Db,
  { revisionIds, now }: { revisionIds: readonly string[]; now: Date },
): Promise<Map<string, Standing>> {
  if (revisionIds.length === 0) return new Map();
  const among = inArray(revisionStandings.revisionId, [...revisionIds]);
  const doubtful = await listMarks(db, and(among, isDoubtfulAt(now)));
  await settle(db, doubtful, now);
  const rows = await db.select().from(revisionStandings).where(among);
  return new Map(
    rows.map(({ revisionId, is, for: use, because, validUntil, basis }) => [
      revisionId,
      { is, for: use, because, validUntil, basis },
    ]),
  );
}

export type Approved = { number: number; digest: string; for: Use };

/** The newest revision of a recipe that is approved now, whatever its head is. */
export async function findApproved(
  db: Db,
  { recipeId, now }: { recipeId: string; now: Date },
): Promise<Approved | null> {
  const ofRecipe = inArray(
    revisionStandings.revisionId,
    db.select({ id: revisions.id }).from(revisions).where(eq(revisions.recipeId, recipeId)),
  );
  await settle(db, await listMarks(db, and(ofRecipe, isDoubtfulAt(now))), now);
  const [approved] = await db
    .select({ number: revisions.number, digest: revisions.digest, for: revisionStandings.for })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .where(and(eq(revisions.recipeId, recipeId), isApprovedAt(now)))
    .orderBy(desc(revisions.number))
    .limit(1);
  if (!approved?.for) return null;
  return { ...approved, for: approved.for };
}

/**
 * Settles some revisions that are marked or whose approval is past its time.
 *
 * @returns how many were looked at: 0 where none is left.
 */
export async function settleSome(
  db: Db,
  { limit, now }: { limit: number; now: Date },
): Promise<number> {
  const doubtful = await listMarks(db, isDoubtfulAt(now), limit);
  await settle(db, doubtful, now);
  return doubtful.length;
}

type Mark = { revisionId: string; marks: number; is: Standing["is"] };

const listMarks = (db: Db, which: SQL | undefined, limit = 1000): Promise<Mark[]> =>
  db
    .select({
      revisionId: revisionStandings.revisionId,
      marks: revisionStandings.marks,
      is: revisionStandings.is,
    })
    .from(revisionStandings)
    .where(which)
    .orderBy(asc(revisionStandings.revisionId))
    .limit(limit);

/** Derives and keeps; what was marked again meanwhile stays marked, what another settled is left. */
async function settle(db: Db, marked: readonly Mark[], now: Date): Promise<void> {
  if (marked.length === 0) return;
  const derived = await deriveStandings(
    db,
    marked.map(({ revisionId }) => revisionId),
    now,
  );
  await db.transaction(async (tx) => {
    const changes = [];
    for (const { revisionId, marks, is: before } of marked) {
      const found = derived.get(revisionId);
      if (!found) continue;
      const { standing, target } = found;
      const [kept] = await tx
        .update(revisionStandings)
        .set({ ...standing, unsettled: false })
        .where(
          and(
            eq(revisionStandings.revisionId, revisionId),
            eq(revisionStandings.marks, marks),
            isDoubtfulAt(now),
          ),
        )
        .returning({ revisionId: revisionStandings.revisionId });
      const gainedOrLost = (before === "approved") !== (standing.is === "approved");
      if (kept && gainedOrLost) changes.push({ target, before, after: standing.is });
    }
    if (changes.length > 0)
      await appendEvents(
        tx,
        changes.map((change) => told(change, now)),
      );
  });
}

/** An approval gained or lost is put on record where it is noticed. */
const told = (
  { target, before, after }: { target: Target; before: string; after: string },
  at: Date,
) => ({
  act: { by: null, at },
  happening: {
    kind: "standing changed",
    subject: "recipe" as const,
    subjectId: target.recipeId,
    detail: { number: target.number, digest: target.digest, before, after },
  },
});

/** What some revisions count as by what is on record now, without keeping it. */
export async function deriveStandings(db: Db, ids: readonly string[], now: Date) {
  const targets = await findTargets(db, ids);
  const facts = await readFacts(db, targets);
  return new Map(
    targets.flatMap((target) => {
      const known = facts.get(target.id);
      return known ? [[target.id, { target, standing: standingOf(known, now) }] as const] : [];
    }),
  );
}

export type StandingFault = { slug: string; number: number; kept: string; derived: string };

/** Revisions that are kept as settled and derive to something else, a thousand at a time. */
export async function findStandingFaults(db: Db, { now }: { now: Date }): Promise<StandingFault[]> {
  const faults: StandingFault[] = [];
  let after = "00000000-0000-0000-0000-000000000000";
  for (;;) {
    const page = await db
      .select({ kept: revisionStandings, slug: recipes.slug, number: revisions.number })
      .from(revisionStandings)
      .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
      .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
      .where(sql`${revisionStandings.revisionId} > ${after}`)
      .orderBy(asc(revisionStandings.revisionId))
      .limit(1000);
    const last = page.at(-1);
    if (!last) return faults;
    after = last.kept.revisionId;
    const settled = page.filter(({ kept }) => !kept.unsettled && !isPast(kept, now));
    const derived = await deriveStandings(
      db,
      settled.map(({ kept }) => kept.revisionId),
      now,
    );
    for (const { kept, slug, number } of settled) {
      const standing = derived.get(kept.revisionId)?.standing;
      const [was, is] = [words(kept), standing ? words(standing) : "nothing"];
      if (was !== is) faults.push({ slug, number, kept: was, derived: is });
    }
  }
}

const isPast = ({ is, validUntil }: Pick<Standing, "is" | "validUntil">, now: Date): boolean =>
  is === "approved" && validUntil !== null && validUntil <= now;

const words = ({ is, for: use, because }: Pick<Standing, "is" | "for" | "because">): string =>
  [is, use ? `for ${use}` : "", because.join(" ")].filter(Boolean).join(": ");
