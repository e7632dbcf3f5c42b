import { and, eq, inArray, type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { revisionLines, revisionStandings, revisions, tiles } from "./schema/index.ts";

/**
 * Marks that what is on record may have changed what revisions count as. Each is one statement, in
 * the transaction of the change; what is marked is no longer shown as approved until it is settled.
 */

/** Revisions that say the same, after a review or an objection. */
export const unsettleDigest = (tx: Db, digest: string): Promise<void> =>
  mark(tx, inTheLibrary(tx, eq(revisions.digest, digest)));

/** Revisions of one melt, after a tile, a test or a withdrawal for safety. */
export const unsettleMelt = (tx: Db, meltDigest: string): Promise<void> =>
  mark(tx, inTheLibrary(tx, eq(revisions.meltDigest, meltDigest)));

/** All revisions of a recipe and those of the same melts, after it was withdrawn or put forward again. */
export const unsettleSameGlaze = (tx: Db, recipeId: string): Promise<void> => {
  const melts = tx
    .select({ melt: revisions.meltDigest })
    .from(revisions)
    .where(eq(revisions.recipeId, recipeId));
  return mark(tx, inTheLibrary(tx, inArray(revisions.meltDigest, melts)));
};

/** Revisions with a line of the material, after another analysis came into use. */
export const unsettleMaterial = (tx: Db, materialId: string): Promise<void> => {
  const { revisionId } = revisionLines;
  const lines = tx
    .select({ revisionId })
    .from(revisionLines)
    .where(eq(revisionLines.materialId, materialId));
  return mark(tx, inArray(revisionStandings.revisionId, lines));
};

/** Revisions whose melt has a tile on the body, after a new sheet of it. */
export const unsettleBody = (tx: Db, bodyId: string): Promise<void> => {
  const melts = tx
    .select({ melt: revisions.meltDigest })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .where(eq(tiles.bodyId, bodyId));
  return mark(tx, inTheLibrary(tx, inArray(revisions.meltDigest, melts)));
};

/** Revisions whose melt has a tile from the firing, after its cones were read or it was withdrawn. */
export const unsettleFiring = (tx: Db, firingId: string): Promise<void> => {
  const melts = tx
    .select({ melt: revisions.meltDigest })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .where(eq(tiles.firingId, firingId));
  return mark(tx, inTheLibrary(tx, inArray(revisions.meltDigest, melts)));
};

/** Of some revisions those that a reviewer judged, after a new engine worked them out. */
export const unsettleJudged = (tx: Db, ids: readonly string[]): Promise<void> =>
  mark(
    tx,
    and(
      inArray(revisionStandings.revisionId, [...ids]),
      inArray(revisionStandings.is, ["approved", "needs another look"]),
    ),
  );

/** Every revision, after the studio changed how long an approval holds. */
export const unsettleAll = (tx: Db): Promise<void> => mark(tx, sql`true`);

const inTheLibrary = (tx: Db, which: SQL): SQL =>
  inArray(
    revisionStandings.revisionId,
    tx.select({ id: revisions.id }).from(revisions).where(which),
  );

async function mark(tx: Db, which: SQL | undefined): Promise<void> {
  await tx
    .update(revisionStandings)
    .set({ unsettled: true, marks: sql`${revisionStandings.marks} + 1` })
    .where(which);
}
