import { sql } from "drizzle-orm";
import {
  type AnyPgColumn,
  boolean,
  check,
  index,
  jsonb,
  pgTable,
  primaryKey,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";
import { recipes, revisions } from "./recipes.ts";

export const anchors = ["whole", "line", "oxide", "tile"] as const;

/** What the note was put on, as it read then. */
export type Snapshot = { says: string; material?: string; amount?: string; part?: string };

/** A remark on a revision or on one place of it. Append-only; its words are in note_texts. */
export const notes = pgTable(
  "notes",
  {
    id: id(),
    recipeId: uuid()
      .notNull()
      .references(() => recipes.id),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    anchor: text({ enum: anchors }).notNull(),
    anchorKey: text(),
    snapshot: jsonb().$type<Snapshot>().notNull(),
    /** The note that this one replies to; a reply has no replies of its own. */
    replyTo: uuid().references((): AnyPgColumn => notes.id),
    /** An objection: it stands in the way of approval until it is closed. */
    blocking: boolean().notNull().default(false),
    textDigest: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (note) => [
    index("notes_of_recipe").on(note.recipeId, note.id),
    index("notes_of_thread").on(note.replyTo),
    index("notes_blocking").on(note.revisionId).where(sql`${note.blocking}`),
    check(
      "notes_reply_does_not_block",
      sql`not (${note.blocking} and ${note.replyTo} is not null)`,
    ),
    check("notes_anchor_known", oneOf(note.anchor, anchors)),
    check("notes_anchor_key_length", lengthIs(note.anchorKey, 1, 80)),
    check("notes_whole_has_no_key", sql`(${note.anchor} = 'whole') = (${note.anchorKey} is null)`),
    check("notes_text_digest_is_digest", isDigest(note.textDigest)),
  ],
);

/** The words of a note, apart from it so that they can be blanked and nothing else. */
export const noteTexts = pgTable(
  "note_texts",
  {
    noteId: uuid()
      .primaryKey()
      .references(() => notes.id),
    text: text(),
    removedAt: moment(),
    removedBy: uuid().references(() => people.id),
    removedWhy: text(),
  },
  (words) => [
    check("note_texts_text_length", lengthIs(words.text, 1, 8000)),
    check(
      "note_texts_there_or_removed",
      sql`(${words.text} is null) = (${words.removedAt} is not null)`,
    ),
  ],
);

/** Other words for a note, by whoever wrote it; the ones before stay readable. Can be blanked and nothing else. */
export const noteEdits = pgTable(
  "note_edits",
  {
    id: id(),
    noteId: uuid()
      .notNull()
      .references(() => notes.id),
    text: text(),
    textDigest: text().notNull(),
    at: moment().notNull(),
    removedAt: moment(),
    removedBy: uuid().references(() => people.id),
    removedWhy: text(),
  },
  (words) => [
    index("note_edits_of_note").on(words.noteId, words.id),
    check("note_edits_text_length", lengthIs(words.text, 1, 8000)),
    check("note_edits_text_digest_is_digest", isDigest(words.textDigest)),
    check(
      "note_edits_there_or_removed",
      sql`(${words.text} is null) = (${words.removedAt} is not null)`,
    ),
  ],
);

/** The end of an objection: by whoever raised it, or overruled by a manager; the words are a reply. Append-only. */
export const noteClosings = pgTable("note_closings", {
  noteId: uuid()
    .primaryKey()
    .references(() => notes.id),
  replyId: uuid()
    .notNull()
    .references(() => notes.id),
  overruled: boolean().notNull(),
  by: uuid()
    .notNull()
    .references(() => people.id),
  at: moment().notNull(),
});

/** Whom a note calls by name. Append-only. */
export const noteMentions = pgTable(
  "note_mentions",
  {
    noteId: uuid()
      .notNull()
      .references(() => notes.id),
    personId: uuid()
      .notNull()
      .references(() => people.id),
  },
  (mention) => [
    primaryKey({ columns: [mention.noteId, mention.personId] }),
    index("note_mentions_of_person").on(mention.personId, mention.noteId),
  ],
);
