import { and, asc, desc, eq, inArray, isNull } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { TestEvidence, TileEvidence } from "../chem/evidence.ts";
import type { Db } from "./client.ts";
import {
  bodies,
  bodySheets,
  firings,
  firingWithdrawals,
  revisions,
  testResults,
  tests,
  testWithdrawals,
  tiles,
  tileWithdrawals,
  witnessCones,
} from "./schema/index.ts";

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
  const sheets = await readSheets(
    db,
    rows.flatMap(({ tile }) => tile.bodyId ?? []),
  );
  const witness = await readWitness(
    db,
    rows.flatMap(({ tile }) => tile.firingId ?? []),
  );
  return rows.map(({ tile, melt, kind, takenBack }) => ({
    melt,
    id: tile.id,
    // The schema bounds its shape; it was taken from the list of cones.
    cone: tile.cone as Cone,
    atmosphere: tile.atmosphere,
    defects: tile.defects,
    layered: tile.overId !== null,
    body: (tile.bodyId !== null && sheets.get(tile.bodyId)) || null,
    firing:
      tile.firingId !== null && kind !== null
        ? { kind, witness: (takenBack === null && witness.get(tile.firingId)) || [] }
        : null,
  }));
}

/** The newest sheet of each body: body id → what it says. */
async function readSheets(db: Db, ids: readonly string[]) {
  if (ids.length === 0) return new Map<string, NonNullable<TileEvidence["body"]>>();
  const rows = await db
    .selectDistinctOn([bodySheets.bodyId], { sheet: bodySheets, name: bodies.name })
    .from(bodySheets)
    .innerJoin(bodies, eq(bodies.id, bodySheets.bodyId))
    .where(inArray(bodySheets.bodyId, [...ids]))
    .orderBy(bodySheets.bodyId, desc(bodySheets.id));
  return new Map(
    rows.map(({ sheet, name }) => [
      sheet.bodyId,
      {
        name,
        absorptionPercent: sheet.absorptionPercent?.toNumber() ?? null,
        cones: { low: sheet.coneLow as Cone, high: sheet.coneHigh as Cone },
      },
    ]),
  );
}

async function readWitness(db: Db, firingIds: readonly string[]) {
  const stood = new Map<string, { cone: Cone; bendDegrees: number }[]>();
  if (firingIds.length === 0) return stood;
  const rows = await db
    .select()
    .from(witnessCones)
    .where(inArray(witnessCones.firingId, [...firingIds]))
    .orderBy(asc(witnessCones.firingId), asc(witnessCones.position));
  for (const { firingId, cone, bendDegrees } of rows) {
    stood.set(firingId, [...(stood.get(firingId) ?? []), { cone: cone as Cone, bendDegrees }]);
  }
  return stood;
}

async function readTests(db: Db, melts: readonly string[]) {
  const rows = await db
    .select({ test: tests, revision: revisions, tile: tiles })
    .from(tests)
    .innerJoin(revisions, eq(revisions.id, tests.revisionId))
    .leftJoin(tiles, eq(tiles.id, tests.tileId))
    .leftJoin(testWithdrawals, eq(testWithdrawals.testId, tests.id))
    .where(and(inArray(revisions.meltDigest, [...melts]), isNull(testWithdrawals.testId)))
    .orderBy(asc(tests.id));
  const elements = await readElements(
    db,
    rows.map(({ test }) => test.id),
  );
  return rows.map(({ test, revision, tile }) => ({
    melt: revision.meltDigest,
    id: test.id,
    kind: test.kind,
    outcome: test.outcome,
    tileId: test.tileId,
    layered: tile !== null && tile.overId !== null,
    cones: {
      low: (tile?.cone ?? revision.coneLow) as Cone,
      high: (tile?.cone ?? revision.coneHigh) as Cone,
    },
    atmosphere: tile?.atmosphere ?? revision.atmosphere,
    elements: elements.get(test.id) ?? [],
    at: test.at,
  }));
}

async function readElements(db: Db, testIds: readonly string[]): Promise<Map<string, string[]>> {
  const read = new Map<string, string[]>();
  if (testIds.length === 0) return read;
  const rows = await db
    .selectDistinct({ testId: testResults.testId, element: testResults.element })
    .from(testResults)
    .where(inArray(testResults.testId, [...testIds]));
  for (const { testId, element } of rows) read.set(testId, [...(read.get(testId) ?? []), element]);
  return read;
}
