import { sql } from "drizzle-orm";
import { check, index, jsonb, pgTable, text, uuid } from "drizzle-orm/pg-core";
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
    textDigest: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (note) => [
    index("notes_of_recipe").on(note.recipeId, note.id),
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
