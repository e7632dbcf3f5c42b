import { asc, eq } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import type { Reader, Withdrawal } from "./recipes.ts";
import {
  bodies,
  firings,
  kilns,
  people,
  trialResults,
  trialResultWithdrawals,
} from "./schema/index.ts";
import type { Defect } from "./tiles.ts";
import { listTrialPhotos, type TrialPhoto } from "./trial-photos.ts";

/** What came of a point in one firing. */
export type TrialResult = {
  id: string;
  n: number;
  body: { slug: string; name: string } | null;
  firing: { id: string; name: string } | null;
  cone: Cone | null;
  surface: string;
  defects: Defect[];
  remark: string;
  by: { id: string; name: string };
  at: Date;
  photos: TrialPhoto[];
  withdrawn: Withdrawal | null;
};

type Seen = {
  trialId: string;
  n: number;
  bodyId: string | null;
  firingId: string | null;
  cone: Cone | null;
  surface: string;
  defects: readonly Defect[];
  remark: string;
};

/** Puts down what came of a point of a trial that was found through the reader's scope. */
export async function addTrialResult(
  db: Db,
  { trialId, n, defects, by, at, ...seen }: Seen & Act & { by: string },
): Promise<string> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const found = [...new Set(defects)];
    await tx.insert(trialResults).values({ id, trialId, n, ...seen, defects: found, by, at });
    const detail = { result: id, point: n, cone: seen.cone };
    const happening = {
      kind: "trial result added",
      subject: "trial",
      subjectId: trialId,
      detail,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return id;
  });
}

export type ResultWithdrawal = { kind: "withdrawn" } | { kind: "withdrawn-before" };

/** Withdraws what was put down at a point, for good and with the reason: it stays on record. */
export async function withdrawTrialResult(
  db: Db,
  {
    trialId,
    n,
    resultId,
    why,
    by,
    at,
  }: Act & { by: string; trialId: string; n: number; resultId: string; why: string },
): Promise<ResultWithdrawal> {
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(trialResultWithdrawals)
      .values({ resultId, why, by, at })
      .onConflictDoNothing()
      .returning({ resultId: trialResultWithdrawals.resultId });
    if (!made) return { kind: "withdrawn-before" };
    const detail = { result: resultId, point: n };
    const happening = {
      kind: "trial result withdrawn",
      subject: "trial",
      subjectId: trialId,
      detail,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "withdrawn" };
  });
}

const withdrawers = alias(people, "withdrawers");

/**
 * Everything that came of a trial's points, in the order that it was put down; what was withdrawn is
 * among it and says so.
 */
export async function listResults(
  db: Db,
  { trialId }: { trialId: string },
): Promise<TrialResult[]> {
  const rows = await db
    .select({
      result: trialResults,
      body: { slug: bodies.slug, name: bodies.name },
      firing: { cone: firings.cone, kiln: kilns.name },
      by: { id: people.id, name: people.name },
      withdrawal: {
        why: trialResultWithdrawals.why,
        at: trialResultWithdrawals.at,
        by: withdrawers.name,
      },
    })
    .from(trialResults)
    .innerJoin(people, eq(people.id, trialResults.by))
    .leftJoin(bodies, eq(bodies.id, trialResults.bodyId))
    .leftJoin(firings, eq(firings.id, trialResults.firingId))
    .leftJoin(kilns, eq(kilns.id, firings.kilnId))
    .leftJoin(trialResultWithdrawals, eq(trialResultWithdrawals.resultId, trialResults.id))
    .leftJoin(withdrawers, eq(withdrawers.id, trialResultWithdrawals.by))
    .where(eq(trialResults.trialId, trialId))
    .orderBy(asc(trialResults.id));
  const photos = await listTrialPhotos(
    db,
    rows.map(({ result }) => result.id),
  );
  return rows.map(({ result, body, firing, by, withdrawal: { why, at, by: withdrawer } }) => ({
    id: result.id,
    n: result.n,
    body,
    firing:
      result.firingId === null
        ? null
        : { id: result.firingId, name: `${firing.kiln}, cone ${firing.cone}` },
    cone: result.cone as Cone | null,
    surface: result.surface,
    defects: result.defects,
    remark: result.remark,
    by,
    at: result.at,
    photos: photos.get(result.id) ?? [],
    withdrawn:
      why !== null && at !== null && withdrawer !== null ? { why, at, by: withdrawer } : null,
  }));
}

/** Which point of which trial a result is of; trials are for people of the studio. */
export async function findResultPlace(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<{ trialId: string; n: number } | undefined> {
  if (!isUuid(id) || !reader) return undefined;
  const [found] = await db
    .select({ trialId: trialResults.trialId, n: trialResults.n })
    .from(trialResults)
    .where(eq(trialResults.id, id));
  return found;
}
