import { asc, eq, gt } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import { chemistryRow } from "./chemistries.ts";
import type { Db } from "./client.ts";
import { meltDigest, revisionDigest } from "./drafts.ts";
import { findLines } from "./revisions.ts";
import { chemistries, events, revisionStandings, revisions } from "./schema/index.ts";
import type { Standing } from "./standing.ts";
import { deriveStandings } from "./standings.ts";

const batch = 100;
const first = "00000000-0000-0000-0000-000000000000";

/**
 * Works out the chemistry of every revision, none of which has any yet.
 *
 * @returns undefined, or the first revision that does not say what its digests say.
 */
export async function workOutChemistry(tx: Db): Promise<string | undefined> {
  for await (const some of inBatches(tx)) {
    const ids = some.map(({ id }) => id);
    const lines = await findLines(tx, ids);
    const rows = [];
    for (const revision of some) {
      const draft = {
        ...revision,
        cones: { low: revision.coneLow as Cone, high: revision.coneHigh as Cone },
        lines: lines.get(revision.id) ?? [],
      };
      const melt = meltDigest(draft.lines);
      const isItself =
        melt === revision.meltDigest && revisionDigest(melt, draft) === revision.digest;
      if (!isItself) return revision.id;
      rows.push(chemistryRow({ revisionId: revision.id, draft }));
    }
    await tx.insert(chemistries).values(rows);
  }
  return undefined;
}

/**
 * Derives what every revision counts as and keeps it, without an event. Where an approval would be
 * gained or lost by it, which is put on record when it is noticed, the revision is left marked: the
 * studio settles it as it would have, and says so.
 */
export async function keepStandings(tx: Db, now: Date): Promise<void> {
  const approved = await readApproved(tx);
  for await (const some of inBatches(tx)) {
    const derived = await deriveStandings(
      tx,
      some.map(({ id }) => id),
      now,
    );
    const rows = some.map(({ id, recipeId, number, use }) => {
      const standing = derived.get(id)?.standing;
      if (!standing) throw new Error("every revision has chemistry by now");
      const was = approved.has(`${recipeId} ${number}`);
      const settled = was === (standing.is === "approved");
      return {
        revisionId: id,
        ...(settled ? standing : before(was, use)),
        unsettled: !settled,
        marks: 0,
      };
    });
    await tx.insert(revisionStandings).values(rows);
  }
}

/** What a revision counted as before the change that is yet to be noticed. */
const before = (approved: boolean, use: "functional" | "decorative"): Standing => ({
  is: approved ? "approved" : "draft",
  for: approved ? use : null,
  because: [],
  validUntil: null,
  basis: [],
});

/** Revisions that counted as approved by the record: “recipe number”. */
async function readApproved(tx: Db): Promise<Set<string>> {
  const told = await tx
    .select({ recipeId: events.subjectId, text: events.text })
    .from(events)
    .where(eq(events.kind, "standing changed"))
    .orderBy(asc(events.seq));
  const approved = new Set<string>();
  for (const { recipeId, text } of told) {
    const { number, after } = JSON.parse(text).detail;
    if (after === "approved") approved.add(`${recipeId} ${number}`);
    else approved.delete(`${recipeId} ${number}`);
  }
  return approved;
}

async function* inBatches(tx: Db) {
  let after = first;
  for (;;) {
    const some = await tx
      .select()
      .from(revisions)
      .where(gt(revisions.id, after))
      .orderBy(asc(revisions.id))
      .limit(batch);
    const last = some.at(-1);
    if (!last) return;
    yield some;
    after = last.id;
  }
}
