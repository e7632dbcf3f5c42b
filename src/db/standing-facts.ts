import { and, asc, desc, eq, inArray, isNull } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import { contradicting, type Gap, missingForFunctional } from "../chem/evidence.ts";
import { moveWords } from "../chem/move-words.ts";
import type { Db } from "./client.ts";
import { type Evidence, findEvidence } from "./evidence.ts";
import { readJudgements } from "./judgements.ts";
import { powderChangeOf } from "./powder-changes.ts";
import { findRevisions } from "./revisions.ts";
import {
  chemistries,
  noteClosings,
  notes,
  recipes,
  reviewRequests,
  revisions,
  studios,
  withdrawals,
} from "./schema/index.ts";
import type { Facts } from "./standing.ts";

/** A revision as far as its standing is concerned. */
export type Target = {
  id: string;
  recipeId: string;
  number: number;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  meltDigest: string;
  digest: string;
  stops: number;
  leachElements: string[] | null;
};

/** Some revisions as their standing sees them, in the order of their ids. */
export async function findTargets(db: Db, ids: readonly string[]): Promise<Target[]> {
  if (ids.length === 0) return [];
  const rows = await db
    .select({
      revision: revisions,
      stops: chemistries.stops,
      leachElements: chemistries.leachElements,
    })
    .from(revisions)
    .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
    .where(inArray(revisions.id, [...ids]))
    .orderBy(asc(revisions.id));
  return rows.map(({ revision, ...rest }) => ({
    id: revision.id,
    recipeId: revision.recipeId,
    number: revision.number,
    use: revision.use,
    cones: { low: revision.coneLow as Cone, high: revision.coneHigh as Cone },
    atmosphere: revision.atmosphere,
    meltDigest: revision.meltDigest,
    digest: revision.digest,
    ...rest,
  }));
}

/** What is on record about some revisions: revision id → facts. A few questions, however many they are. */
export async function readFacts(db: Db, targets: readonly Target[]): Promise<Map<string, Facts>> {
  const ids = targets.map(({ id }) => id);
  const digests = [...new Set(targets.map(({ digest }) => digest))];
  const judgements = await readJudgements(db, targets);
  const [withdrawn, requested, objections, approvalMonths] = [
    await readWithdrawals(
      db,
      targets.map(({ recipeId }) => recipeId),
    ),
    await readRequested(db, digests),
    await readObjections(db, digests),
    await readApprovalMonths(db),
  ];
  // What speaks against an approval is asked only where there is one: most revisions have none.
  const judged = targets.filter(({ id }) =>
    judgements.get(id)?.newest.some(({ verdict }) => verdict === "approve"),
  );
  const against = await readAgainst(db, judged);
  const nothing = { safetyWithdrawals: [], moved: [], failedTests: [], gaps: [] };
  return new Map(
    ids.map((id, place) => {
      const target = targets[place] as Target;
      const { newest = [], remarked = false } = judgements.get(id) ?? {};
      return [
        id,
        {
          withdrawn: withdrawn.get(target.recipeId) ?? null,
          judgements: newest,
          looked: remarked || requested.has(target.digest),
          objections: objections.get(target.digest) ?? [],
          approvalMonths,
          ...(against.get(id) ?? nothing),
        },
      ];
    }),
  );
}

async function readWithdrawals(db: Db, recipeIds: readonly string[]): Promise<Map<string, string>> {
  if (recipeIds.length === 0) return new Map();
  const rows = await db
    .selectDistinctOn([withdrawals.recipeId])
    .from(withdrawals)
    .where(inArray(withdrawals.recipeId, [...recipeIds]))
    .orderBy(withdrawals.recipeId, desc(withdrawals.id));
  return new Map(rows.filter((row) => row.withdrawn).map((row) => [row.recipeId, row.why]));
}

async function readRequested(db: Db, digests: readonly string[]): Promise<Set<string>> {
  const rows = await db
    .selectDistinct({ digest: revisions.digest })
    .from(reviewRequests)
    .innerJoin(revisions, eq(revisions.id, reviewRequests.revisionId))
    .where(inArray(revisions.digest, [...digests]));
  return new Set(rows.map(({ digest }) => digest));
}

async function readObjections(db: Db, digests: readonly string[]): Promise<Map<string, string[]>> {
  const rows = await db
    .select({ digest: revisions.digest, name: recipes.name, number: revisions.number })
    .from(notes)
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .where(
      and(
        eq(notes.blocking, true),
        isNull(noteClosings.noteId),
        inArray(revisions.digest, [...digests]),
      ),
    )
    .orderBy(asc(notes.id));
  const open = new Map<string, string[]>();
  for (const { digest, name, number } of rows) {
    open.set(digest, [...(open.get(digest) ?? []), `revision ${number} of ${name}`]);
  }
  return open;
}

async function readApprovalMonths(db: Db): Promise<number | null> {
  const [studio] = await db.select({ months: studios.approvalMonths }).from(studios);
  return studio?.months ?? null;
}

type Against = Pick<Facts, "safetyWithdrawals" | "moved" | "failedTests" | "gaps">;

async function readAgainst(db: Db, targets: readonly Target[]): Promise<Map<string, Against>> {
  if (targets.length === 0) return new Map();
  const melts = [...new Set(targets.map(({ meltDigest }) => meltDigest))];
  const evidence = await findEvidence(db, melts);
  const unsafe = await readSafetyWithdrawals(db, melts);
  const found = await findRevisions(
    db,
    targets.map(({ id }) => id),
  );
  const moved = new Map(
    found.map((revision) => [
      revision.id,
      (powderChangeOf(revision)?.moves ?? []).map(
        (move) => `With the powders in use now it has moved: ${moveWords(move)}.`,
      ),
    ]),
  );
  return new Map(
    targets.map((target) => {
      const known = evidence.get(target.meltDigest) ?? { tiles: [], tests: [] };
      return [
        target.id,
        {
          safetyWithdrawals: unsafe
            .filter((other) => other.recipeId !== target.recipeId && isSameFired(other, target))
            .map(({ name }) => name),
          moved: moved.get(target.id) ?? [],
          failedTests: contradicting(target, known.tests),
          gaps: gapsOf(target, known),
        },
      ];
    }),
  );
}

/** What a revision lacks to be approved as functional. */
export const gapsOf = (target: Target, { tiles, tests }: Evidence): Gap[] =>
  missingForFunctional(target, tiles, tests);

async function readSafetyWithdrawals(db: Db, melts: readonly string[]) {
  const newest = db
    .selectDistinctOn([withdrawals.recipeId], {
      recipeId: withdrawals.recipeId,
      forSafety: withdrawals.forSafety,
    })
    .from(withdrawals)
    .orderBy(withdrawals.recipeId, desc(withdrawals.id))
    .as("newest");
  return db
    .selectDistinct({
      recipeId: recipes.id,
      name: recipes.name,
      meltDigest: revisions.meltDigest,
      low: revisions.coneLow,
      high: revisions.coneHigh,
      atmosphere: revisions.atmosphere,
    })
    .from(newest)
    .innerJoin(recipes, eq(recipes.id, newest.recipeId))
    .innerJoin(revisions, eq(revisions.recipeId, recipes.id))
    .where(and(eq(newest.forSafety, true), inArray(revisions.meltDigest, [...melts])));
}

const isSameFired = (
  other: { meltDigest: string; low: string; high: string; atmosphere: string },
  { meltDigest, cones, atmosphere }: Target,
): boolean =>
  other.meltDigest === meltDigest &&
  other.low === cones.low &&
  other.high === cones.high &&
  other.atmosphere === atmosphere;
