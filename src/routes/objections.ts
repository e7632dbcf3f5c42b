import { Hono } from "hono";
import { z } from "zod";
import { closeObjection } from "../db/closing.ts";
import type { KnownNote } from "../db/notes.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text, ticked } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { addressOf, findTheNote, formAgain, threadJson } from "./note-pages.ts";

export const objections = new Hono<Env>();

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

objections.on(
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
