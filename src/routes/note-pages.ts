import { v7 as uuidv7 } from "uuid";
import { NotePage } from "../../views/recipes/note-form.tsx";
import { placesOf } from "../../views/recipes/note-places.ts";
import { type Doing, WordsPage } from "../../views/recipes/words-form.tsx";
import { findNote, findThread, type KnownNote } from "../db/notes.ts";
import type { FoundRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { listTiles } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import { ticked } from "../wire/fields.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { noteJson } from "./note-json.ts";

/** The note of an address, as far as the reader may know of its recipe. */
export const findTheNote = (c: Ctx) =>
  findNote(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

/** Where a note stands on its recipe's page. */
export const addressOf = ({ id, recipe }: Pick<KnownNote, "id" | "recipe">): string =>
  `/recipes/${recipe.slug}#note-${id}`;

/** The whole thread that a note belongs to, beside the head of today. */
export async function threadJson(c: Ctx, { thread: id, recipe }: KnownNote) {
  const head = await findRevision(c.var.db, { recipeId: recipe.id, number: recipe.head });
  const thread = await findThread(c.var.db, { id, head });
  return thread ? noteJson(thread) : {};
}

type Again = { does: Doing; faults: readonly Fault[]; status: 415 | 422; typed: object };

/** The one form by itself, with what was typed still in it. */
export const formAgain = (c: Ctx, note: KnownNote, { does, faults, status, typed }: Again) =>
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

type NoteAgain = { faults: readonly Fault[]; status: 415 | 422; typed: object };

/** The form of a new note by itself, with what was typed and chosen still in it. */
export async function noteAgain(c: Ctx, recipe: FoundRecipe, { faults, status, typed }: NoteAgain) {
  const { db, viewer: reader } = c.var;
  const recipeId = recipe.id;
  const asked = typedText(typed, "revision");
  const number = /^[1-9]\d{0,5}$/.test(asked) ? Number(asked) : recipe.head;
  const revision = await findRevision(db, { recipeId, number });
  const places =
    revision &&
    placesOf(recipe, revision, await listTiles(db, { meltDigest: revision.meltDigest, reader }));
  const view = () =>
    NotePage({
      recipe,
      // The place is one choice in the form, whatever is wrong with it.
      faults: faults.map(({ path, says }) => ({
        path: path.startsWith("anchor") ? "on" : path,
        says,
      })),
      text: typedText(typed, "text"),
      revision: String(number),
      anchor: { kind: typedText(typed, "anchor.kind"), key: typedText(typed, "anchor.key") },
      places,
      blocking: ticked.safeParse((typed as { blocking?: unknown }).blocking).data === true,
      idempotencyKey: uuidv7(),
    });
  const page = { title: `A note on ${recipe.name}`, here: "library" as const };
  return faulty(c, { status, faults }, { page, view });
}
