import { Hono } from "hono";
import { z } from "zod";
import { findThread, listNotes, putNote } from "../db/notes.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { created, wantsJson } from "../wire/answers.tsx";
import { check, readSent } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line, text, ticked } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { noteJson } from "./note-json.ts";
import { noteAgain } from "./note-pages.ts";

export const notes = new Hono<Env>();

const anchor = z
  .strictObject({
    kind: z.enum(["whole", "line", "oxide", "tile"]).default("whole"),
    /** The line's place from 0, the oxide, or the tile's id. */
    key: line(80).optional(),
  })
  .refine(({ kind, key }) => (kind === "whole") === (key === undefined), {
    error: "A note on a line, an oxide or a tile says which; one on the whole does not.",
    path: ["key"],
  });

const noteBody = z.object({
  revision: z.coerce.number().int().min(1).max(1_000_000).optional(),
  anchor: anchor.default({ kind: "whole" }),
  text: text(8000),
  /** An objection: it stands in the way of approval until it is closed. */
  blocking: ticked.default(false),
});

notes.get(
  "/:slug/notes",
  described({ says: "The notes on a recipe, oldest first" }),
  readerRequired,
  async (c) => {
    const recipe = await findRecipe(c.var.db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    if (!wantsJson(c)) return c.redirect(`/recipes/${recipe.slug}#notes`, 302);
    const { id: recipeId, head: number } = recipe;
    const head = await findRevision(c.var.db, { recipeId, number });
    const found = await listNotes(c.var.db, { recipeId, head });
    return c.json({ items: found.map(noteJson), next: null });
  },
);

notes.post(
  "/:slug/notes",
  described({ says: "Put a note on a recipe or on one place of it", body: noteBody, status: 201 }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    const sent = await readSent(c);
    const read =
      sent.kind === "refused" ? { ...sent, typed: {} } : check(noteBody, placed(sent.value));
    const refused = (faults: readonly Fault[], status: 415 | 422 = 422) =>
      noteAgain(c, recipe, { faults, status, typed: read.typed });
    if (read.kind === "refused") return refused(read.faults, read.status);

    const { revision: number = recipe.head, anchor: on, text: words, blocking } = read.value;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision)
      return refused([{ path: "revision", says: `${recipe.name} has no revision ${number}.` }]);
    const put = await putNote(db, {
      ...actOf(c),
      recipeId: recipe.id,
      revision,
      anchor: on,
      text: words,
      blocking,
    });
    switch (put.kind) {
      case "no-such-place":
        return refused([{ path: "anchor.key", says: put.says }]);
      case "put": {
        const note = await findThread(db, { id: put.id });
        return created(c, `/recipes/${recipe.slug}#note-${put.id}`, note && noteJson(note));
      }
    }
  },
);

/** A form asks for the place in one choice: `whole`, `line-3`, `oxide-SiO2` or a tile's id. */
function placed(sent: unknown): unknown {
  const [, kind, key] = /^(line|oxide|tile)-(.{1,80})$/.exec(typedText(sent, "on")) ?? [];
  return kind === undefined ? sent : { ...(sent as object), anchor: { kind, key } };
}
