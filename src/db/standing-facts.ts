import { desc, eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { readJudgements } from "./judgements.ts";
import { openObjections } from "./objections.ts";
import { reviewRequests, revisions, studios, withdrawals } from "./schema/index.ts";
import type { Facts } from "./standing.ts";
import { readAgainst } from "./standing-against.ts";
import type { Target } from "./standing-targets.ts";

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
    await readObjections(db, targets),
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
          objections: objections.get(id) ?? [],
          approvalMonths,
          ...(against.get(id) ?? nothing),
        },
      ];
    }),
  );
}

/** Recipes that are withdrawn now: recipe id → why. */
export async function readWithdrawals(
  db: Db,
  recipeIds: readonly string[],
): Promise<Map<string, string>> {
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

/** Open objections on what says the same, as far as they reach each revision: revision id → where they are. */
async function readObjections(db: Db, targets: readonly Target[]): Promise<Map<string, string[]>> {
  const digests = [...new Set(targets.map(({ digest }) => digest))];
  const open = await openObjections(db, { digests });
  return new Map(
    targets.map(({ id, recipeId, digest }) => [
      id,
      open
        .filter((objection) => objection.digest === digest)
        .filter((objection) => objection.recipeId === recipeId || objection.shownTo !== "private")
        .map(({ name, number }) => `revision ${number} of ${name}`),
    ]),
  );
}

async function readApprovalMonths(db: Db): Promise<number | null> {
  const [studio] = await db.select({ months: studios.approvalMonths }).from(studios);
  return studio?.months ?? null;
}
