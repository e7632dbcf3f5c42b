import { desc, inArray, sql } from "drizzle-orm";
import { unionAll } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { doubtfulBuckets, heldBuckets, reportedBuckets } from "./waiting-buckets.ts";
import { answeredObjections, openObjections, unansweredMentions } from "./waiting-notes.ts";
import { openOffers } from "./waiting-offers.ts";
import { openRecalls, recalledUses } from "./waiting-recalls.ts";
import { anotherLooks, askedReviews } from "./waiting-reviews.ts";
import { hurtfulKinds, type Waiter, type WaitingKind, type WaitingRow } from "./waiting-rows.ts";
import { waitingAnalyses } from "./waiting-shelf.ts";
import { lowStock } from "./waiting-stock.ts";
import { hrefOf, sayOf } from "./waiting-words.ts";

export { type Waiter, type WaitingKind, waitingKinds } from "./waiting-rows.ts";

export type Waiting = {
  kind: WaitingKind;
  says: string;
  href: string;
  at: Date;
  /** By name; null where nobody did it, such as an approval that lapsed. */
  by: string | null;
};

/** How much is listed: whoever has more has enough to begin with. */
export const mostListed = 200;

/**
 * What waits for somebody, newest first. It is worked out from what is on record; nothing is stored.
 * Where it is more than two hundred, those that may hurt are among them before the newest of the rest.
 */
export async function listWaiting(db: Db, waiter: Waiter): Promise<Waiting[]> {
  const all = everything(db, waiter).as("everything");
  const chosen = db
    .select()
    .from(all)
    .orderBy(desc(inArray(all.kind, [...hurtfulKinds])), desc(all.at))
    .limit(mostListed)
    .as("chosen");
  const rows: WaitingRow[] = await db
    .select()
    .from(chosen)
    .orderBy(desc(chosen.at), chosen.kind, chosen.ref);
  return rows.map((row) => ({
    kind: row.kind,
    says: sayOf(row),
    href: hrefOf(row),
    at: row.at,
    by: row.by,
  }));
}

/** How much waits for somebody: one question, asked for every page that they read. */
export async function countWaiting(db: Db, waiter: Waiter): Promise<number> {
  const [counted] = await db
    .select({ waiting: sql<number>`count(*)::integer` })
    .from(everything(db, waiter).as("waiting"));
  return counted?.waiting ?? 0;
}

function everything(db: Db, waiter: Waiter) {
  const { role } = waiter.reader;
  return unionAll(
    openObjections(db, waiter),
    answeredObjections(db, waiter),
    openOffers(db, waiter),
    anotherLooks(db, waiter),
    doubtfulBuckets(db, waiter),
    unansweredMentions(db, waiter),
    recalledUses(db, waiter),
    ...(role === "member" ? [] : [askedReviews(db, waiter)]),
    ...(role === "manager"
      ? [
          heldBuckets(db, waiter),
          reportedBuckets(db, waiter),
          waitingAnalyses(db, waiter),
          openRecalls(db, waiter),
          lowStock(db, waiter),
        ]
      : []),
  );
}
