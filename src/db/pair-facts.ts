import { and, asc, eq, inArray } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { contradicting } from "../chem/evidence.ts";
import { missingForPair, sharedCones } from "../chem/pair-evidence.ts";
import type { Db } from "./client.ts";
import { type Evidence, findEvidence } from "./evidence.ts";
import { findWriters, newestOf } from "./judgements.ts";
import type { PairFacts } from "./pair-standing.ts";
import { pairReviews, revisions, studios, tiles } from "./schema/index.ts";
import { readAgainst } from "./standing-against.ts";
import { readWithdrawals } from "./standing-facts.ts";
import { findTargets, type Target } from "./standing-targets.ts";

type Glaze = { id: string; name: string };

/** A pair as far as its standing is concerned. */
export type PairTarget = { id: string; over: Glaze; under: Glaze };

export type KnownPair = {
  facts: PairFacts;
  /** Tiles and tests of the two together, on any revision of the same melts; nothing withdrawn. */
  evidence: Evidence;
  /** Whose content either glaze is. */
  writers: ReadonlySet<string>;
  /** Every tile of the pair, withdrawn ones too. */
  tileIds: ReadonlySet<string>;
};

/** What is on record about some pairs: pair id → it. A few questions, however many they are. */
export async function readPairs(
  db: Db,
  pairs: readonly PairTarget[],
): Promise<Map<string, KnownPair>> {
  if (pairs.length === 0) return new Map();
  const ids = [...new Set(pairs.flatMap(({ over, under }) => [over.id, under.id]))];
  const targets = new Map((await findTargets(db, ids)).map((target) => [target.id, target]));
  const known = [...targets.values()];
  const evidence = await findEvidence(db, [...new Set(known.map(({ meltDigest }) => meltDigest))]);
  const layered = await readLayeredTiles(db, known);
  const against = await readAgainst(db, known);
  const withdrawn = await readWithdrawals(
    db,
    known.map(({ recipeId }) => recipeId),
  );
  const writers = await findWriters(db, known);
  const said = await readSaid(db, pairs);
  const [studio] = await db.select({ months: studios.approvalMonths }).from(studios);

  return new Map(
    pairs.map(({ id, ...glazes }) => {
      const over = targetOf(targets, glazes.over.id);
      const under = targetOf(targets, glazes.under.id);
      const tileIds = new Set(
        layered
          .filter((tile) => tile.over === over.meltDigest && tile.under === under.meltDigest)
          .map((tile) => tile.id),
      );
      const ofPair = evidenceOf(evidence.get(over.meltDigest), tileIds);
      const own = new Set([...(writers.get(over.id) ?? []), ...(writers.get(under.id) ?? [])]);
      const ofThis = said.filter(({ pairId }) => pairId === id);
      const cones = sharedCones(over, under);
      const facts: PairFacts = {
        judgements: newestOf(ofThis, own),
        looked: ofThis.some(({ verdict }) => verdict === "remark"),
        failedTests: cones
          ? contradicting({ cones, atmosphere: over.atmosphere }, ofPair.tests)
          : [],
        gaps: missingForPair(
          { ...over, name: glazes.over.name },
          { ...under, name: glazes.under.name },
          ofPair.tiles,
          ofPair.tests,
        ),
        approvalMonths: studio?.months ?? null,
        against: [
          { ...glazes.over, target: over },
          { ...glazes.under, target: under },
        ].flatMap(({ name, target }) => [
          ...(withdrawn.has(target.recipeId) ? [`${name} is withdrawn.`] : []),
          ...(against.get(target.id)?.safetyWithdrawals ?? []).map(
            (recipe) => `${recipe}, which is ${name} so fired, was withdrawn for safety.`,
          ),
          ...(against.get(target.id)?.moved ?? []).map((moved) => `${name}: ${moved}`),
        ]),
      };
      return [id, { facts, evidence: ofPair, writers: own, tileIds }];
    }),
  );
}

function targetOf(targets: ReadonlyMap<string, Target>, id: string): Target {
  const target = targets.get(id);
  if (!target) throw new Error("every revision has its chemistry");
  return target;
}

/** The layered tiles of some melts, by the melts that lie over and under. */
async function readLayeredTiles(db: Db, targets: readonly Target[]) {
  const beneath = alias(revisions, "beneath");
  return db
    .select({ id: tiles.id, over: revisions.meltDigest, under: beneath.meltDigest })
    .from(tiles)
    .innerJoin(revisions, eq(revisions.id, tiles.revisionId))
    .innerJoin(beneath, eq(beneath.id, tiles.overId))
    .where(
      inArray(
        revisions.meltDigest,
        targets.map(({ meltDigest }) => meltDigest),
      ),
    );
}

/** The evidence on tiles of the pair; of the two together nothing lies over anything else. */
function evidenceOf(known: Evidence | undefined, tileIds: ReadonlySet<string>): Evidence {
  const { tiles: fired, tests } = known ?? { tiles: [], tests: [] };
  return {
    tiles: fired.filter(({ id }) => tileIds.has(id)).map((tile) => ({ ...tile, layered: false })),
    tests: tests
      .filter(({ tileId }) => tileId !== null && tileIds.has(tileId))
      .map((test) => ({ ...test, layered: false })),
  };
}

const readSaid = (db: Db, pairs: readonly PairTarget[]) =>
  db
    .select({
      id: pairReviews.id,
      pairId: pairReviews.pairId,
      verdict: pairReviews.verdict,
      for: pairReviews.for,
      by: pairReviews.by,
      at: pairReviews.at,
    })
    .from(pairReviews)
    .where(
      and(
        inArray(
          pairReviews.pairId,
          pairs.map(({ id }) => id),
        ),
      ),
    )
    .orderBy(asc(pairReviews.id));
