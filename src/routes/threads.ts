import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { type Doing, WordsPage } from "../../views/recipes/words-form.tsx";
import { closeObjection } from "../db/closing.ts";
import { editNote } from "../db/note-editing.ts";
import { findNote, findThread, type KnownNote } from "../db/notes.ts";
import { replyTo } from "../db/replies.ts";
import { findRevision } from "../db/revisions.ts";
import { changed, created, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text, ticked } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { noteJson } from "./note-json.ts";

export const threads = new Hono<Env>();

const wordsBody = z.strictObject({ text: text(8000), idempotencyKey });

const answerBody = z
  .strictObject({
    /** What answers the objection, from whoever raised it. */
    text: text(8000).optional(),
    /** A manager's: it is closed although whoever raised it has not done so. */
    overrule: ticked.default(false),
    why: text(8000).optional(),
    idempotencyKey,
  })
  .refine(({ overrule, text: words }) => overrule || words !== undefined, {
    error: "Say what answers the objection.",
    path: ["text"],
  })
  .refine(({ overrule, why }) => !overrule || why !== undefined, {
    error: "Say why it is overruled.",
    path: ["why"],
  });

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
  "/notes/:id/answer",
  described({ says: "Close an objection, or overrule it with a reason", body: answerBody }),
  memberRequired,
  async (c) => {
    const note = await findTheNote(c);
    if (!note) return notFound(c);
    if (!note.blocking) return faulty(c, { faults: [{ path: "", says: noObjection }] });
    const read = await readBody(c, answerBody);
    const overrules = read.kind === "read" ? read.value.overrule : isTicked(read.typed.overrule);
    const refusal = refusalOf(c, note, overrules);
    if (refusal) return notAllowed(c, refusal);
    if (note.closed) return faulty(c, { faults: [{ path: "", says: closedBefore }] });
    if (read.kind === "refused")
      return formAgain(c, note, { ...read, does: overrules ? "overrule" : "close" });

    const { overrule: overruled, text: words, why } = read.value;
    const closing = await closeObjection(c.var.db, {
      ...actOf(c),
      note,
      overruled,
      text: (overruled ? why : words) ?? "",
    });
    switch (closing.kind) {
      case "closed":
        return changed(c, addressOf(note), await threadJson(c, note));
      case "closed-before":
        return faulty(c, { faults: [{ path: "", says: closedBefore }] });
      case "no-objection":
        return faulty(c, { faults: [{ path: "", says: noObjection }] });
    }
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

const noObjection = "This note is no objection, so there is nothing to close. Reply to it.";
const closedBefore =
  "This objection was closed before. Put a new one if something is still in the way.";

/** Why somebody may not end an objection so, with the way that is open to them; undefined where they may. */
function refusalOf(c: Ctx, note: KnownNote, overrules: boolean): string | undefined {
  const { id, role } = memberOf(c);
  if (overrules) {
    if (role === "manager") return undefined;
    return id === note.by.id
      ? "Only a manager overrules. Say what answers your objection, and close it yourself."
      : "Only a manager overrules an objection. Reply to it, or ask a manager to overrule it with a reason.";
  }
  if (id === note.by.id) return undefined;
  return role === "manager"
    ? `Only ${note.by.name} can close it so. Reply to it, or overrule it with a reason.`
    : `Only ${note.by.name} can close it. Reply to it, or ask a manager to overrule it with a reason.`;
}

const isTicked = (typed: unknown): boolean => ticked.safeParse(typed).data === true;

const findTheNote = (c: Ctx) =>
  findNote(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

const addressOf = ({ id, recipe }: Pick<KnownNote, "id" | "recipe">): string =>
  `/recipes/${recipe.slug}#note-${id}`;

async function threadJson(c: Ctx, { thread: id, recipe }: KnownNote) {
  const head = await findRevision(c.var.db, { recipeId: recipe.id, number: recipe.head });
  const thread = await findThread(c.var.db, { id, head });
  return thread ? noteJson(thread) : {};
}

/** The one form by itself, with what was typed still in it. */
const formAgain = (
  c: Ctx,
  note: KnownNote,
  {
    does,
    faults,
    status,
    typed,
  }: { does: Doing; faults: readonly Fault[]; status: 415 | 422; typed: object },
) =>
  faulty(
    c,
    { status, faults },
    {
      page: { title: `A note on ${note.recipe.name}`, here: "library" },
      view: () =>
        WordsPage({
          recipe: note.recipe,
          noteId: note.id,
          does,
          typed: typedText(typed, does === "overrule" ? "why" : "text"),
          faults,
          idempotencyKey: uuidv7(),
        }),
    },
  );
