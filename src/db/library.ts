import { and, desc, inArray, sql } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { LabTriple } from "../chem/plain-colours.ts";
import type { meltOxides } from "../chem/restating.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { orderOf, type Place, pick } from "./library-picking.ts";
import { type ReadStrip, readStrips } from "./library-strips.ts";
import type { Reader } from "./recipes.ts";
import { revisionStandings, revisions, standings as standingWords } from "./schema/index.ts";
import type { Term } from "./search-terms.ts";
import type { StandingIs } from "./standing.ts";
import { findStandings, isApprovedAt } from "./standings.ts";

export type { Place } from "./library-picking.ts";

export type Search = {
  /** What was typed, as it was understood; the best 200 answer, the best first. */
  terms?: readonly Term[] | undefined;
  /** The same as one name, folded: what is called just so comes first. */
  typed?: string | undefined;
  cone?: Cone | undefined;
  use?: Use | undefined;
  surface?: string | undefined;
  atmosphere?: Atmosphere | undefined;
  standing?: StandingIs | undefined;
  /** The 200 whose tiles came out nearest to it, the nearest first; what has no such tile is left out. */
  colour?: LabTriple | undefined;
  /** Ids of materials that the head has in no line. */
  without?: readonly string[] | undefined;
  /** Moles for every mole of flux, both ends included. */
  oxides?: readonly OxideRange[] | undefined;
  /** Ids of people. */
  makers?: readonly string[] | undefined;
  /** Only these recipes, by their addresses. */
  among?: readonly string[] | undefined;
};

export type OxideRange = {
  oxide: (typeof meltOxides)[number];
  least?: number | undefined;
  most?: number | undefined;
};

/** The words that a standing is searched by. */
export { standingWords };

export type Strip = {
  id: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  number: number;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  /** Of the head. */
  standing: StandingIs;
  /** The newest revision that is approved, where one is, and what for. */
  approved: { number: number; for: Use } | null;
  /** Cones at which a tile of the same melt came out of a kiln. */
  tested: string[];
  picture: { sha256: string; alt: string } | null;
};

/**
 * A page of the library: what is approved as functional and holds now, by name, then the rest by
 * name; or what answers a search best first. `after` is where the page before ended.
 */
export async function listStrips(
  db: Db,
  params: {
    reader: Reader;
    now: Date;
    search: Search;
    after?: Place | undefined;
    limit: number;
  },
): Promise<{ strips: Strip[]; next: Place | null }> {
  const { reader, now, search, limit } = params;
  const rows = await pick(db, params);
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  const revisionIds = page.map(({ revisionId }) => revisionId);
  const known = await readStrips(db, { revisionIds, reader, now });
  const read = revisionIds.flatMap((id) => known.get(id) ?? []);
  const doubtful = read.filter((each) => each.doubtful);
  if (doubtful.length > 0) await settleShown(db, doubtful, now);
  return {
    strips: read.map(({ strip }) => strip),
    next:
      rows.length > limit && last
        ? { by: orderOf(search), key: last.key, nameKey: last.nameKey, id: last.id }
        : null,
  };
}

/** What is shown is settled first; what a standing was searched by is as it was kept. */
async function settleShown(db: Db, shown: readonly ReadStrip[], now: Date): Promise<void> {
  const standings = await findStandings(db, {
    revisionIds: shown.map(({ revisionId }) => revisionId),
    now,
  });
  const recipeIds = shown.map(({ strip }) => strip.id);
  const approved = await findApprovedOf(db, { recipeIds, now });
  for (const { strip, revisionId } of shown) {
    strip.standing = standings.get(revisionId)?.is ?? strip.standing;
    strip.approved = approved.get(strip.id) ?? null;
  }
}

/** The newest approved revision of each recipe that has one: recipe id → its number and use. */
async function findApprovedOf(
  db: Db,
  { recipeIds, now }: { recipeIds: string[]; now: Date },
): Promise<Map<string, { number: number; for: Use }>> {
  const rows = await db
    .selectDistinctOn([revisions.recipeId], {
      recipeId: revisions.recipeId,
      number: revisions.number,
      for: sql<Use>`${revisionStandings.for}`,
    })
    .from(revisionStandings)
    .innerJoin(revisions, sql`${revisions.id} = ${revisionStandings.revisionId}`)
    .where(and(inArray(revisions.recipeId, recipeIds), isApprovedAt(now)))
    .orderBy(revisions.recipeId, desc(revisions.number));
  return new Map(rows.map(({ recipeId, number, for: use }) => [recipeId, { number, for: use }]));
}
