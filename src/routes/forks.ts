import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { ForkPage } from "../../views/recipes/fork.tsx";
import type { Db } from "../db/client.ts";
import { publishRecipe } from "../db/publishing.ts";
import { findRecipe } from "../db/recipes.ts";
import { draftOf, type FoundRevision, findRevision } from "../db/revisions.ts";
import { created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { type ForkBody, forkBody } from "../wire/recipe-body.ts";
import { formLines, typedText } from "../wire/worksheet-form.ts";
import { type Drafted, draftFrom } from "./draft-reading.ts";
import { headJson } from "./whole-recipe.ts";

export const forks = new Hono<Env>();

forks.get(
  "/:slug/forks/new",
  described({ says: "The form to fork a recipe" }),
  memberRequired,
  async (c) => {
    const recipe = await findRecipe(c.var.db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    const asked = Number(c.req.query("revision"));
    const revision =
      Number.isInteger(asked) && asked >= 1 && asked <= recipe.head ? asked : recipe.head;
    const form = { name: "", lines: [], message: "", faults: [], idempotencyKey: uuidv7() };
    return page(c, { title: `Fork ${recipe.name}`, here: "library" }, () =>
      ForkPage({ recipe, revision, ...form }),
    );
  },
);

forks.post(
  "/:slug/forks",
  described({
    says: "A recipe of one's own that starts as a revision of another, or with other lines in it",
    body: forkBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    const read = await readBody(c, forkBody);
    const refused = (faults: readonly Fault[]) =>
      faulty(
        c,
        { faults },
        {
          page: { title: `Fork ${recipe.name}`, here: "library" },
          view: () => ForkPage({ recipe, ...typedFork(read.typed, recipe.head), faults }),
        },
      );
    if (read.kind === "refused") return refused(read.faults);
    const { name, revision: number = recipe.head } = read.value;
    const origin = await findRevision(db, { recipeId: recipe.id, number });
    if (!origin)
      return refused([{ path: "revision", says: `${recipe.name} has no revision ${number}.` }]);
    const drafted = await forkDraft(db, origin, recipe.name, read.value);
    if (drafted.kind === "faulty") return refused(drafted.faults);

    // A fork of what not everybody may see is shown to no more people than its origin.
    const forked = await publishRecipe(db, {
      ...actOf(c),
      name,
      shownTo: recipe.shownTo,
      forkedFrom: origin.id,
      draft: drafted.draft,
    });
    switch (forked.kind) {
      case "published":
        return created(c, `/recipes/${forked.slug}`, await headJson(c, forked.slug));
      case "name-taken":
        return refused([
          {
            path: "name",
            says: "Another recipe has this name already. Give yours one of its own.",
          },
        ]);
    }
  },
);

/** The revision as it is, or with other lines in it, pinned to the analyses in use. */
async function forkDraft(
  db: Db,
  origin: FoundRevision,
  name: string,
  { lines, message }: ForkBody,
): Promise<Drafted> {
  const from = `${name}, revision ${origin.number}`;
  if (!lines) return { kind: "draft", draft: draftOf(origin, message ?? `Forked from ${from}`) };
  const said = draftOf(origin, message ?? `Forked from ${from}, with other lines`);
  return draftFrom(db, { ...said, lines });
}

/** A fork as it was typed, to be shown again. */
function typedFork(typed: Typed, head: number) {
  const revision = Number(typedText(typed, "revision"));
  return {
    name: typedText(typed, "name"),
    revision: Number.isInteger(revision) && revision >= 1 ? revision : head,
    lines: formLines(typed.lines),
    message: typedText(typed, "message"),
    idempotencyKey: uuidv7(),
  };
}
