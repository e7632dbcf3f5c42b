import { desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Use } from "../chem/chemistry.ts";
import type { Gap } from "../chem/evidence.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { readPairs } from "./pair-facts.ts";
import type { FoundPair } from "./pairs.ts";
import type { Verdict } from "./reviews.ts";
import { findRevisions } from "./revisions.ts";
import { pairReviews, people } from "./schema/index.ts";

export type FoundPairReview = {
  id: string;
  verdict: Verdict;
  for: Use;
  reasons: string;
  by: { id: string; name: string };
  at: Date;
};

/** What reviewers said of a pair, newest first. */
export function listPairReviews(
  db: Db,
  { pairId }: { pairId: string },
): Promise<FoundPairReview[]> {
  return db
    .select({
      id: pairReviews.id,
      verdict: pairReviews.verdict,
      for: pairReviews.for,
      reasons: pairReviews.reasons,
      by: { id: people.id, name: people.name },
      at: pairReviews.at,
    })
    .from(pairReviews)
    .innerJoin(people, eq(people.id, pairReviews.by))
    .where(eq(pairReviews.pairId, pairId))
    .orderBy(desc(pairReviews.id));
}

type Judging = Act & {
  by: string;
  pair: FoundPair;
  verdict: Verdict;
  for: Use;
  reasons: string;
};

export type GivenPairReview =
  | { kind: "given"; id: string }
  | { kind: "own-content" }
  | { kind: "against"; against: readonly string[] }
  | { kind: "missing"; gaps: readonly Gap[] };

/**
 * Puts a reviewer's verdict on a pair on record. The caller has found that `by` is a reviewer or a
 * manager; who wrote either glaze is refused, here and by the database.
 */
export async function reviewPair(db: Db, judging: Judging): Promise<GivenPairReview> {
  const { pair, verdict, reasons, by, at } = judging;
  return db.transaction(async (tx) => {
    const known = (await readPairs(tx, [pair])).get(pair.id);
    if (!known) throw new Error("the pair was found before");
    const { facts, evidence, writers } = known;
    if (writers.has(by)) return { kind: "own-content" };
    if (verdict === "approve" && facts.against.length > 0)
      return { kind: "against", against: facts.against };
    if (verdict === "approve" && judging.for === "functional" && facts.gaps.length > 0)
      return { kind: "missing", gaps: facts.gaps };
    const id = uuidv7();
    const glazes = await findRevisions(tx, [pair.over.id, pair.under.id]);
    const lookedAt = {
      engine: glazes[0]?.chemistry.engine ?? "",
      findings: glazes.flatMap(({ chemistry }) =>
        chemistry.findings.map(({ rule, level, says }) => ({ rule, level, says })),
      ),
      tiles: evidence.tiles.map((tile) => tile.id),
      tests: evidence.tests.map((test) => test.id),
    };
    await tx
      .insert(pairReviews)
      .values({ id, pairId: pair.id, verdict, for: judging.for, reasons, lookedAt, by, at });
    const kind = happened[verdict];
    const detail = { review: id, for: judging.for };
    await appendEvent(tx, { by, at }, { kind, subject: "pair", subjectId: pair.id, detail });
    return { kind: "given", id };
  });
}

const happened: Readonly<Record<Verdict, string>> = {
  approve: "pair approved",
  object: "pair objected to",
  remark: "pair remarked on",
};
