import { and, desc, eq, inArray } from "drizzle-orm";
import { contradicting, type Gap, missingForFunctional } from "../chem/evidence.ts";
import { moveWords } from "../chem/move-words.ts";
import type { Db } from "./client.ts";
import { type Evidence, findEvidence } from "./evidence.ts";
import { powderChangeOf } from "./powder-changes.ts";
import { type FoundRevision, findRevisions } from "./revisions.ts";
import { recipes, revisions, withdrawals } from "./schema/index.ts";
import type { Facts } from "./standing.ts";
import type { Target } from "./standing-targets.ts";

export type Against = Pick<Facts, "safetyWithdrawals" | "moved" | "failedTests" | "gaps">;

/** What speaks against an approval of each of some revisions: revision id → it. */
export async function readAgainst(
  db: Db,
  targets: readonly Target[],
): Promise<Map<string, Against>> {
  if (targets.length === 0) return new Map();
  const melts = [...new Set(targets.map(({ meltDigest }) => meltDigest))];
  const evidence = await findEvidence(db, melts);
  const unsafe = await readSafetyWithdrawals(db, melts);
  const found = await findRevisions(
    db,
    targets.map(({ id }) => id),
  );
  const moved = new Map(found.map((revision) => [revision.id, movedWords(revision)]));
  return new Map(
    targets.map((target) => {
      const known = evidence.get(target.meltDigest) ?? { tiles: [], tests: [] };
      return [
        target.id,
        {
          safetyWithdrawals: unsafe
            .filter((other) => other.recipeId !== target.recipeId && isSameFired(other, target))
            .map(({ name, shownTo }) => (shownTo === "private" ? "A recipe kept private" : name)),
          moved: moved.get(target.id) ?? [],
          failedTests: contradicting(target, known.tests),
          gaps: gapsOf(target, known),
        },
      ];
    }),
  );
}

function movedWords(revision: FoundRevision): string[] {
  const moves = (powderChangeOf(revision)?.moves ?? []).map(moveWords);
  return moves.length === 0
    ? []
    : [`With the powders in use now it has moved: ${moves.join("; ")}.`];
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
      shownTo: recipes.shownTo,
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
