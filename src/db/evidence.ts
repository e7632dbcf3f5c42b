import { and, asc, eq, inArray, isNull } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { TestEvidence, TileEvidence } from "../chem/evidence.ts";
import { judgeLeach, speaksAgainstPassing } from "../chem/leach.ts";
import { type FoundBody, findBodies } from "./bodies.ts";
import type { Db } from "./client.ts";
import {
  firings,
  firingWithdrawals,
  revisions,
  studios,
  testResults,
  tests,
  testWithdrawals,
  tiles,
  tileWithdrawals,
} from "./schema/index.ts";
import { listWitness } from "./witness-cones.ts";

/** What came out of kilns for one melt, whichever recipe it was made for; nothing withdrawn. */
export type Evidence = { tiles: TileEvidence[]; tests: (TestEvidence & { at: Date })[] };

/** The evidence for each of some melts: melt digest → its tiles and tests. */
export async function findEvidence(
  db: Db,
  melts: readonly string[],
): Promise<Map<string, Evidence>> {
  const found = new Map(melts.map((melt): [string, Evidence] => [melt, { tiles: [], tests: [] }]));
  if (melts.length === 0) return found;
  for (const { melt, ...tile } of await readTiles(db, melts)) found.get(melt)?.tiles.push(tile);
  for (const { melt, ...test } of await readTests(db, melts)) found.get(melt)?.tests.push(test);
  return found;
}

async function readTiles(db: Db, melts: readonly string[]) {
  const rows = await db
    .select({
      tile: tiles,
      melt: revisions.meltDigest,
      kind: firings.kind,
      takenBack: firingWithdrawals.why,
    })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .leftJoin(firings, eq(firings.id, tiles.firingId))
    .leftJoin(firingWithdrawals, eq(firingWithdrawals.firingId, tiles.firingId))
    .leftJoin(tileWithdrawals, eq(tileWithdrawals.tileId, tiles.id))
    .where(and(inArray(revisions.meltDigest, [...melts]), isNull(tileWithdrawals.tileId)))
    .orderBy(asc(tiles.id));
  const found = await findBodies(
    db,
    rows.flatMap(({ tile }) => tile.bodyId ?? []),
  );
  const witness = await listWitness(
    db,
    rows.flatMap(({ tile }) => tile.firingId ?? []),
  );
  return rows.map(({ tile, melt, kind, takenBack }) => {
    const body = tile.bodyId === null ? undefined : found.get(tile.bodyId);
    return {
      melt,
      id: tile.id,
      // The schema bounds its shape; it was taken from the list of cones.
      cone: tile.cone as Cone,
      atmosphere: tile.atmosphere,
      defects: tile.defects,
      layered: tile.overId !== null,
      body: body ? bodyOf(body) : null,
      firing:
        tile.firingId !== null && kind !== null
          ? { kind, witness: (takenBack === null && witness.get(tile.firingId)) || [] }
          : null,
    };
  });
}

const bodyOf = ({ name, sheet }: FoundBody): NonNullable<TileEvidence["body"]> => ({
  name,
  absorptionPercent: sheet.absorption?.percent.toNumber() ?? null,
  cones: sheet.cones,
});

async function readTests(db: Db, melts: readonly string[]) {
  const rows = await db
    .select({ test: tests, revision: revisions, tile: tiles })
    .from(tests)
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .leftJoin(tiles, eq(tiles.id, tests.tileId))
    .leftJoin(testWithdrawals, eq(testWithdrawals.testId, tests.id))
    .where(and(inArray(revisions.meltDigest, [...melts]), isNull(testWithdrawals.testId)))
    .orderBy(asc(tests.id));
  const figures = await readFigures(
    db,
    rows.map(({ test }) => test.id),
  );
  const [studio] = await db.select({ jurisdictions: studios.jurisdictions }).from(studios);
  return rows.map(({ test, revision, tile }) => {
    const results = figures.get(test.id) ?? [];
    return {
      melt: revision.meltDigest,
      id: test.id,
      kind: test.kind,
      outcome: outcomeOf(test, results, studio?.jurisdictions ?? []),
      tileId: test.tileId,
      layered: tile !== null && tile.overId !== null,
      cones: {
        low: (tile?.cone ?? revision.coneLow) as Cone,
        high: (tile?.cone ?? revision.coneHigh) as Cone,
      },
      atmosphere: tile?.atmosphere ?? revision.atmosphere,
      elements: [...new Set(results.map(({ element }) => element))],
      at: test.at,
    };
  });
}

type Figure = typeof testResults.$inferSelect;

/**
 * What a test counts as. A leach report called passed before the studio chose limits that it is over
 * has failed by them; the database, which knows no limits, is never asked to approve what this holds up.
 */
function outcomeOf(
  { outcome, articleClass }: typeof tests.$inferSelect,
  results: readonly Figure[],
  jurisdictions: readonly string[],
) {
  if (outcome !== "passed" || results.length === 0) return outcome;
  const against = judgeLeach(results, { jurisdictions, articleClass }).filter(speaksAgainstPassing);
  if (against.length === 0) return outcome;
  return against.some(({ is }) => is === "over") ? "failed" : "unclear";
}

async function readFigures(db: Db, testIds: readonly string[]): Promise<Map<string, Figure[]>> {
  const read = new Map<string, Figure[]>();
  if (testIds.length === 0) return read;
  const rows = await db
    .select()
    .from(testResults)
    .where(inArray(testResults.testId, [...testIds]))
    .orderBy(asc(testResults.testId), asc(testResults.position));
  for (const row of rows) read.set(row.testId, [...(read.get(row.testId) ?? []), row]);
  return read;
}
