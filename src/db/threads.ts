import { and, asc, eq, or, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { movedSince } from "./moved-since.ts";
import { listEdits } from "./note-words.ts";
import type { FoundRevision } from "./revisions.ts";
import {
  importedThings,
  importWithdrawals,
  noteClosings,
  notes,
  noteTexts,
  people,
  revisions,
  type Snapshot,
  tileWithdrawals,
} from "./schema/index.ts";
import type { Anchor } from "./snapshots.ts";

/** The end of an objection, with the words that it ended with; null where those were removed. */
export type Closing = {
  by: { id: string; name: string };
  at: Date;
  overruled: boolean;
  text: string | null;
};

export type FoundNote = {
  id: string;
  revision: number;
  anchor: { kind: Anchor["kind"]; key: string | null };
  snapshot: Snapshot;
  /** As it reads now; null where a manager had it removed. */
  text: string | null;
  by: { id: string; name: string };
  at: Date;
  /** An objection: it stands in the way of approval until it is closed. */
  blocking: boolean;
  replyTo: string | null;
  closed: Closing | null;
  /** All that it ever said, the words of now last; nothing where they were removed. */
  versions: { text: string; at: Date }[];
  /** In the order in which they were given; a reply has none of its own. */
  replies: FoundNote[];
  /** It was said elsewhere and came with an import: it counts for nothing. Null where it did not. */
  quoted: "with an import" | "with an import that was taken back" | null;
  /** How its place reads on the head where that is otherwise than it was; null where it is the same. */
  moved: string | null;
};

/** The threads on all revisions of a recipe, oldest first; with `head`, what moved since is said. */
export const listNotes = (
  db: Db,
  { recipeId, head }: { recipeId: string; head?: FoundRevision | undefined },
): Promise<FoundNote[]> => readThreads(db, eq(notes.recipeId, recipeId), head);

/** One thread by the id of its first note. The note was found through the reader's scope. */
export async function findThread(
  db: Db,
  { id, head }: { id: string; head?: FoundRevision | undefined },
): Promise<FoundNote | undefined> {
  const [thread] = await readThreads(db, or(eq(notes.id, id), eq(notes.replyTo, id)), head);
  return thread;
}

const closers = alias(people, "closers");

async function readThreads(
  db: Db,
  which: SQL | undefined,
  head: FoundRevision | undefined,
): Promise<FoundNote[]> {
  const rows = await db
    .select({
      id: notes.id,
      revision: revisions.number,
      kind: notes.anchor,
      key: notes.anchorKey,
      snapshot: notes.snapshot,
      blocking: notes.blocking,
      replyTo: notes.replyTo,
      text: noteTexts.text,
      by: { id: people.id, name: people.name },
      at: notes.at,
      closedAt: noteClosings.at,
      overruled: noteClosings.overruled,
      closingReply: noteClosings.replyId,
      closer: { id: closers.id, name: closers.name },
      importId: importedThings.importId,
      importTakenBack: importWithdrawals.importId,
      tileWithdrawn: sql<boolean>`${tileWithdrawals.tileId} is not null`,
    })
    .from(notes)
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(people, eq(people.id, notes.by))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .leftJoin(closers, eq(closers.id, noteClosings.by))
    .leftJoin(
      importedThings,
      and(eq(importedThings.noun, "note"), eq(importedThings.thingId, notes.id)),
    )
    .leftJoin(importWithdrawals, eq(importWithdrawals.importId, importedThings.importId))
    .leftJoin(
      tileWithdrawals,
      sql`${notes.anchor} = 'tile' and ${tileWithdrawals.tileId}::text = ${notes.anchorKey}`,
    )
    .where(which)
    .orderBy(asc(notes.id));
  const edits = await listEdits(
    db,
    rows.map(({ id }) => id),
  );
  const now = head && {
    number: head.number,
    lines: head.lines,
    unity: head.chemistry.unity,
    withdrawnTiles: new Set(rows.flatMap(({ key, tileWithdrawn }) => (tileWithdrawn && key) || [])),
  };

  const threads = new Map<string, FoundNote>();
  const saidIn = new Map<string, string | null>();
  for (const row of rows) {
    const { kind, key, closedAt, overruled, closer, closingReply, tileWithdrawn: _, ...rest } = row;
    const { importId, importTakenBack, ...note } = rest;
    const versions =
      note.text === null ? [] : [{ text: note.text, at: note.at }].concat(edits.get(note.id) ?? []);
    const { revision, snapshot } = note;
    const found: FoundNote = {
      ...note,
      anchor: { kind, key },
      text: versions.at(-1)?.text ?? null,
      closed: closedAt &&
        closer && { by: closer, at: closedAt, overruled: overruled ?? false, text: null },
      versions,
      replies: [],
      quoted:
        importId === null
          ? null
          : importTakenBack === null
            ? "with an import"
            : "with an import that was taken back",
      moved:
        now && note.replyTo === null ? movedSince({ revision, kind, key, snapshot }, now) : null,
    };
    saidIn.set(found.id, found.text);
    if (note.replyTo === null) threads.set(found.id, found);
    else threads.get(note.replyTo)?.replies.push(found);
  }
  for (const { id, closingReply } of rows) {
    const closed = threads.get(id)?.closed;
    if (closed && closingReply) closed.text = saidIn.get(closingReply) ?? null;
  }
  return [...threads.values()];
}
