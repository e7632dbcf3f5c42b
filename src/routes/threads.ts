import { Hono } from "hono";
import { z } from "zod";
import { editNote } from "../db/note-editing.ts";
import { findThread } from "../db/notes.ts";
import { replyTo } from "../db/replies.ts";
import { changed, created, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { noteJson } from "./note-json.ts";
import { addressOf, findTheNote, formAgain, threadJson } from "./note-pages.ts";

export const threads = new Hono<Env>();

const wordsBody = z.strictObject({ text: text(8000), idempotencyKey });

threads.get(
  "/notes/:id",
  described({ says: "A note with its thread; as a page, its place on the recipe's" }),
  readerRequired,
  async (c) => {
    const note = await findTheNote(c);
    if (!note) return notFound(c);
    return wantsJson(c) ? c.json(await threadJson(c, note)) : c.redirect(addressOf(note), 302);
  },
);

threads.post(
  "/notes/:id/replies",
  described({ says: "Answer in the thread of a note", body: wordsBody, status: 201 }),
  memberRequired,
  async (c) => {
    const note = await findTheNote(c);
    if (!note) return notFound(c);
    const read = await readBody(c, wordsBody);
    if (read.kind === "refused") return formAgain(c, note, { ...read, does: "reply" });

    const { id } = await replyTo(c.var.db, { note, text: read.value.text, ...actOf(c) });
    const thread = await findThread(c.var.db, { id: note.thread });
    const reply = thread?.replies.find((one) => one.id === id);
    return created(c, addressOf({ ...note, id }), reply && noteJson(reply));
  },
);

threads.on(
  ["PUT", "POST"],
  "/notes/:id/text",
  described({ says: "Other words for one's own note; the ones before stay", body: wordsBody }),
  memberRequired,
  async (c) => {
    const note = await findTheNote(c);
    if (!note) return notFound(c);
    if (note.by.id !== memberOf(c).id) {
      const says = `These are ${note.by.name}'s words, and only theirs to change. Reply to them.`;
      return notAllowed(c, says);
    }
    const read = await readBody(c, wordsBody);
    if (read.kind === "refused") return formAgain(c, note, { ...read, does: "edit" });

    const edit = await editNote(c.var.db, { note, text: read.value.text, ...actOf(c) });
    switch (edit.kind) {
      case "edited":
      case "as-before":
        return changed(c, addressOf(note), await threadJson(c, note));
      case "removed-before": {
        const says = "A manager had the words of this note removed. Put a new note instead.";
        return faulty(c, { faults: [{ path: "", says }] });
      }
    }
  },
);
