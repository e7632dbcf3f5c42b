import { and, eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { latestWords } from "./note-words.ts";
import {
  noteTexts,
  offerAnswers,
  offers,
  reviews,
  revisionStandings,
  revisions,
  testWithdrawals,
  tiles,
  tileWithdrawals,
  withdrawals,
} from "./schema/index.ts";

export type Happened = {
  seq: number;
  at: Date;
  subject: string;
  subjectId: string;
  kind: string;
  detail: Record<string, unknown>;
};

type Said = { key: string | number | Date; says: string | null };

type Source = {
  kinds: readonly string[];
  /** What the words are kept under. */
  key: (line: Happened, recipeId: string) => unknown;
  read: (db: Db, keys: string[], recipeId: string) => PromiseLike<Said[]>;
};

const subject = ({ subjectId }: Happened) => subjectId;
const detail = (name: string) => (line: Happened) => line.detail[name];

/** Where each kind of happening keeps the words of whoever did it. */
const sources: readonly Source[] = [
  {
    kinds: ["published", "revised", "forked"],
    key: (line, recipeId) => (line.subjectId === recipeId ? line.detail.number : undefined),
    read: (db, numbers, recipeId) =>
      db
        .select({ key: revisions.number, says: revisions.message })
        .from(revisions)
        .where(
          and(eq(revisions.recipeId, recipeId), inArray(revisions.number, numbers.map(Number))),
        ),
  },
  {
    kinds: ["noted"],
    key: detail("note"),
    read: (db, ids) => readNotes(db, ids),
  },
  {
    kinds: ["objection closed", "objection overruled"],
    key: detail("reply"),
    read: (db, ids) => readNotes(db, ids),
  },
  {
    kinds: ["approved", "objected to", "remarked on"],
    key: detail("review"),
    read: (db, ids) =>
      db
        .select({ key: reviews.id, says: reviews.reasons })
        .from(reviews)
        .where(inArray(reviews.id, ids)),
  },
  {
    kinds: ["withdrawn", "put forward again", "import withdrawn"],
    key: ({ at }) => at.toISOString(),
    read: (db, _, recipeId) =>
      db
        .select({ key: withdrawals.at, says: withdrawals.why })
        .from(withdrawals)
        .where(eq(withdrawals.recipeId, recipeId)),
  },
  {
    // Why is kept for what a revision counts as now, and for nothing that it counted as before.
    kinds: ["standing changed"],
    key: (line) => `${line.detail.number} ${line.detail.after}`,
    read: async (db, _, recipeId) => {
      const rows = await db
        .select({ number: revisions.number, standing: revisionStandings })
        .from(revisionStandings)
        .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
        .where(eq(revisions.recipeId, recipeId));
      return rows.map(({ number, standing: { is, because } }) => ({
        key: `${number} ${is}`,
        says: because.join(" "),
      }));
    },
  },
  {
    kinds: ["offered"],
    key: subject,
    read: (db, ids) =>
      db.select({ key: offers.id, says: offers.why }).from(offers).where(inArray(offers.id, ids)),
  },
  {
    kinds: ["offer accepted", "offer declined"],
    key: subject,
    read: (db, ids) =>
      db
        .select({ key: offerAnswers.offerId, says: offerAnswers.why })
        .from(offerAnswers)
        .where(inArray(offerAnswers.offerId, ids)),
  },
  {
    kinds: ["tile added"],
    key: subject,
    read: (db, ids) =>
      db.select({ key: tiles.id, says: tiles.remark }).from(tiles).where(inArray(tiles.id, ids)),
  },
  {
    kinds: ["tile withdrawn"],
    key: subject,
    read: (db, ids) =>
      db
        .select({ key: tileWithdrawals.tileId, says: tileWithdrawals.why })
        .from(tileWithdrawals)
        .where(inArray(tileWithdrawals.tileId, ids)),
  },
  {
    kinds: ["test withdrawn"],
    key: subject,
    read: (db, ids) =>
      db
        .select({ key: testWithdrawals.testId, says: testWithdrawals.why })
        .from(testWithdrawals)
        .where(inArray(testWithdrawals.testId, ids)),
  },
];

const readNotes = (db: Db, ids: string[]): PromiseLike<Said[]> =>
  db
    .select({ key: noteTexts.noteId, says: latestWords })
    .from(noteTexts)
    .where(inArray(noteTexts.noteId, ids));

/** What was said with each line of a page of history, by its number: one question for each source in it. */
export async function findWords(
  db: Db,
  { recipeId, happened }: { recipeId: string; happened: readonly Happened[] },
): Promise<Map<number, string>> {
  const words = new Map<number, string>();
  for (const { kinds, key, read } of sources) {
    const lines = happened.flatMap((line) => {
      const under = kinds.includes(line.kind) ? key(line, recipeId) : undefined;
      return under === undefined || under === null ? [] : [{ seq: line.seq, under: String(under) }];
    });
    if (lines.length === 0) continue;
    const keys = lines.map(({ under }) => under);
    const said = new Map((await read(db, keys, recipeId)).map((row) => [keyOf(row), row.says]));
    for (const { seq, under } of lines) {
      const says = said.get(under);
      if (says) words.set(seq, says);
    }
  }
  return words;
}

const keyOf = ({ key }: Said): string => (key instanceof Date ? key.toISOString() : String(key));
