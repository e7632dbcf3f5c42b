import { and, eq, isNull, ne, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { readableBy } from "./recipes.ts";
import {
  noteClosings,
  noteMentions,
  notes,
  noteTexts,
  people,
  recipes,
  revisions,
} from "./schema/index.ts";
import { type Waiter, waitingColumns } from "./waiting-rows.ts";

/** Objections that nobody has closed, to recipes that are the person's own. */
export const openObjections = (db: Db, { reader }: Waiter) =>
  db
    .select(
      waitingColumns({
        kind: "objection",
        number: revisions.number,
        ref: notes.id,
        at: notes.at,
        by: people.name,
      }),
    )
    .from(notes)
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .innerJoin(people, eq(people.id, notes.by))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .where(and(isOpenObjection, eq(recipes.ownerId, reader.id)));

/** Objections of the person's own that stand open, and whose last word is somebody else's. */
export const answeredObjections = (db: Db, { reader }: Waiter) => {
  const replies = alias(notes, "replies");
  return db
    .select(
      waitingColumns({
        kind: "objection-answered",
        number: revisions.number,
        ref: notes.id,
        at: replies.at,
        by: people.name,
      }),
    )
    .from(notes)
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .innerJoin(replies, eq(replies.replyTo, notes.id))
    .innerJoin(people, eq(people.id, replies.by))
    .leftJoin(noteClosings, eq(noteClosings.noteId, notes.id))
    .where(
      and(
        isOpenObjection,
        eq(notes.by, reader.id),
        ne(replies.by, reader.id),
        sql`not exists (select 1 from ${notes} later where later.reply_to = ${notes.id} and later.id > ${replies.id})`,
        readableBy(reader),
      ),
    );
};

/** Notes that call the person by name, in threads where they have not written since. */
export const unansweredMentions = (db: Db, { reader }: Waiter) => {
  const thread = sql`coalesce(${notes.replyTo}, ${notes.id})`;
  return db
    .select(
      waitingColumns({
        kind: "mention",
        number: revisions.number,
        ref: notes.id,
        at: notes.at,
        by: people.name,
      }),
    )
    .from(noteMentions)
    .innerJoin(notes, eq(notes.id, noteMentions.noteId))
    .innerJoin(noteTexts, eq(noteTexts.noteId, notes.id))
    .innerJoin(revisions, eq(revisions.id, notes.revisionId))
    .innerJoin(recipes, eq(recipes.id, notes.recipeId))
    .innerJoin(people, eq(people.id, notes.by))
    .where(
      and(
        eq(noteMentions.personId, reader.id),
        ne(notes.by, reader.id),
        isNull(noteTexts.removedAt),
        sql`not exists (select 1 from ${notes} later where later."by" = ${reader.id} and later.id > ${notes.id}
          and (later.id = ${thread} or later.reply_to = ${thread}))`,
        readableBy(reader),
      ),
    );
};

const isOpenObjection: SQL | undefined = and(eq(notes.blocking, true), isNull(noteClosings.noteId));
