import {
  and,
  desc,
  eq,
  inArray,
  isNotNull,
  isNull,
  ne,
  notExists,
  type SQL,
  sql,
} from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Expansion } from "../chem/chemistry-types.ts";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  bodies,
  chemistries,
  type defects,
  recipes,
  revisions,
  tests,
  testWithdrawals,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";

/** A glaze that is recorded as fitting on a body, and the test that says so. */
export type FittingGlaze = {
  recipe: { slug: string; name: string };
  number: number;
  test: { id: string; at: Date };
  /** As it was stored beside the revision. */
  expansion: Expansion[];
};

/** A body, with the glaze to hold another's expansion against; null where none is recorded as fitting. */
export type Fit = { body: { slug: string; name: string }; reference: FittingGlaze | null };

/** Cracks and flakes that say that a glaze does not fit its body. */
const unfitting = ["crazing", "shivering", "dunting"] as const satisfies (typeof defects)[number][];

/**
 * For each body that tiles of the melt stand on, or for every body where there are none, the glaze of
 * another melt that was last recorded as fitting on it, as far as the reader may know. Recorded as
 * fitting: a tile on the body, by itself, without cracks or flakes, that passed a thermal shock test;
 * neither withdrawn, and no such test of that tile failed.
 */
export async function listFits(
  db: Db,
  { meltDigest, reader }: { meltDigest: string; reader: Reader },
): Promise<Fit[]> {
  const stoodOn = await bodiesOfMelt(db, meltDigest, reader);
  const rows = await db
    .select({ id: bodies.id, slug: bodies.slug, name: bodies.name })
    .from(bodies)
    .where(stoodOn.length > 0 ? inArray(bodies.id, stoodOn) : undefined)
    .orderBy(bodies.nameKey);
  const references = await findReferences(db, { meltDigest, reader });
  return rows.map(({ id, ...body }) => ({ body, reference: references.get(id) ?? null }));
}

async function bodiesOfMelt(db: Db, meltDigest: string, reader: Reader): Promise<string[]> {
  const rows = await db
    .selectDistinct({ id: tiles.bodyId })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(
      and(
        eq(revisions.meltDigest, meltDigest),
        isNotNull(tiles.bodyId),
        isNull(tiles.overId),
        isNull(tileWithdrawals.tileId),
        readableBy(reader),
      ),
    );
  return rows.flatMap(({ id }) => id ?? []);
}

async function findReferences(
  db: Db,
  { meltDigest, reader }: { meltDigest: string; reader: Reader },
): Promise<Map<string, FittingGlaze>> {
  const rows = await db
    .selectDistinctOn([tiles.bodyId], {
      bodyId: tiles.bodyId,
      recipe: { slug: recipes.slug, name: recipes.name },
      number: revisions.number,
      test: { id: tests.id, at: tests.at },
      chemistry: chemistries.detail,
    })
    .from(tests)
    .innerJoin(tiles, eq(tiles.id, tests.tileId))
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(chemistries, eq(chemistries.revisionId, revisions.id))
    .leftJoin(testWithdrawals, eq(testWithdrawals.testId, tests.id))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(
      and(
        eq(tests.kind, "thermal shock"),
        eq(tests.outcome, "passed"),
        ne(revisions.meltDigest, meltDigest),
        isNotNull(tiles.bodyId),
        isFitting,
        noneFailed(db),
        isNull(testWithdrawals.testId),
        isNull(tileWithdrawals.tileId),
        readableBy(reader),
      ),
    )
    .orderBy(tiles.bodyId, desc(tests.id));
  return new Map(
    rows.flatMap(({ bodyId, chemistry, ...glaze }) =>
      bodyId === null ? [] : [[bodyId, { ...glaze, expansion: chemistry.expansion }]],
    ),
  );
}

/** By itself on the body, without cracks or flakes. */
const isFitting: SQL = sql`${tiles.overId} is null and not (${tiles.defects} && array[${sql.raw(
  unfitting.map((defect) => `'${defect}'`).join(", "),
)}]::text[])`;

/** No thermal shock test of the tile failed and stands. */
function noneFailed(db: Db): SQL {
  const failed = alias(tests, "failed_tests");
  const taken = alias(testWithdrawals, "failed_withdrawals");
  return notExists(
    db
      .select({ id: failed.id })
      .from(failed)
      .leftJoin(taken, eq(taken.testId, failed.id))
      .where(
        and(
          eq(failed.tileId, tiles.id),
          eq(failed.kind, "thermal shock"),
          eq(failed.outcome, "failed"),
          isNull(taken.testId),
        ),
      ),
  );
}
