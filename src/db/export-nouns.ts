import { eq, type SQL } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import { masterWidth } from "./pictures.ts";
import * as schema from "./schema/index.ts";

/** One kind of row in an export: a file of its own. */
export type Noun = {
  /** As the schema's code calls the table. */
  name: string;
  table: PgTable;
  /** Columns that are no field of it: secrets, what a file beside it holds, what is derived. */
  omits: readonly string[];
  /** Which rows, where not all. */
  only?: SQL;
  /** How many rows are held at once, where a few hundred would be too much. */
  batch?: number;
};

const tables: Record<string, unknown> = { ...schema };

/** What lets somebody in: in a backup, and in no export. */
const secrets: Readonly<Record<string, readonly string[]>> = {
  people: ["passwordHash"],
  wishes: ["feedTokenHash"],
  shareLinks: ["tokenHash"],
  handouts: ["tokenHash"],
};

const noun = (name: keyof typeof schema, more: Partial<Noun> = {}): Noun => ({
  name,
  table: tables[name] as PgTable,
  omits: secrets[name] ?? [],
  ...more,
});

/**
 * What an export holds, in the order in which it is written and taken in again: whatever a row refers
 * to stands before it. `recipes.forkedFrom` and `notes.replyTo` alone look ahead.
 */
export const exported: readonly Noun[] = [
  noun("people"),
  noun("studios"),
  noun("wishes"),
  noun("preferences"),
  noun("savedSearches"),
  noun("bodies"),
  noun("bodySheets"),
  noun("materials"),
  noun("materialNames"),
  noun("analyses"),
  noun("analysisOxides"),
  noun("analysesInUse"),
  noun("discontinuations"),
  noun("materialGravities"),
  noun("dataSheets"),
  noun("suppliers"),
  noun("supplierTerms"),
  noun("packs"),
  noun("lots"),
  noun("stockLines"),
  noun("recipes"),
  noun("revisions"),
  noun("revisionLines"),
  noun("revisionCoauthors"),
  noun("withdrawals"),
  noun("engineMoves"),
  noun("families"),
  noun("familyRecipes"),
  noun("shareLinks"),
  noun("handouts"),
  noun("handoutRevisions"),
  noun("kilns"),
  noun("firings"),
  noun("witnessCones"),
  noun("firingLogs", { batch: 50 }),
  noun("firingReadings", { batch: 10 }),
  noun("firingCosts"),
  noun("firingWithdrawals"),
  noun("buckets"),
  noun("bucketChanges"),
  noun("bucketReadings"),
  noun("bucketAdditions"),
  noun("bucketDirections"),
  noun("bucketReports"),
  noun("bucketReportAnswers"),
  noun("bucketUses"),
  noun("bucketUseUndoings"),
  noun("mixes"),
  noun("mixLines"),
  noun("mixTicks"),
  noun("mixTickUndoings"),
  noun("mixEnds"),
  noun("mixPlans"),
  noun("mixPlanEnds"),
  noun("stockMoves"),
  noun("recalls"),
  noun("recallClosings"),
  noun("tiles"),
  noun("tileWithdrawals"),
  noun("pictures"),
  // A row for each master: the narrower pictures are made from it again.
  noun("pictureBytes", {
    omits: ["width", "bytes"],
    only: eq(schema.pictureBytes.width, masterWidth),
  }),
  noun("photos"),
  noun("tileColours"),
  noun("tests"),
  noun("testResults"),
  noun("testWithdrawals"),
  noun("testPhotos"),
  noun("testReports", { omits: ["bytes"] }),
  noun("trials"),
  noun("trialPoints"),
  noun("trialResults"),
  noun("trialResultWithdrawals"),
  noun("trialPhotos"),
  noun("trialRecipes"),
  noun("pairs"),
  noun("pairReviews"),
  noun("notes"),
  noun("noteTexts"),
  noun("noteEdits"),
  noun("noteClosings"),
  noun("noteMentions"),
  noun("reviewRequests"),
  noun("reviews"),
  noun("offers"),
  noun("offerAnswers"),
  noun("imports"),
  noun("importedThings"),
  noun("importWithdrawals"),
  noun("events"),
];

/** What a backup holds: the same, with passwords and links that go on working. */
export const backedUp: readonly Noun[] = exported.map((each) => ({
  ...each,
  omits: each.omits.filter((name) => !secrets[each.name]?.includes(name)),
}));

/** Tables that are in no export, each with the reason. */
export const leftOut: Readonly<Record<string, string>> = {
  chemistries: "worked out anew from the pinned analyses",
  revisionStandings: "derived anew from what is on record",
  recipeHeads: "derived anew from what is on record",
  recipeWords: "derived anew from what is on record",
  spellings: "derived anew from what is on record",
  sessions: "secret: who is signed in where",
  invites: "secret: links to join",
  recoveries: "secret: links to set a new password",
  answers: "passing: first answers to repeated requests, kept for a day",
  signInAttempts: "passing: failed sign-ins of the last minutes",
};
