import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { ForkPage } from "../../views/recipes/fork.tsx";
import { publishRecipe } from "../db/publishing.ts";
import { findRecipe } from "../db/recipes.ts";
import { draftOf, findRevision } from "../db/revisions.ts";
import { created, page } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { headJson } from "./whole-recipe.ts";

export const forks = new Hono<Env>();

const forkBody = z.object({
  name: line(80),
  /** The revision to start from; the head where nothing is said. */
  revision: z.coerce.number().int().min(1).max(1_000_000).optional(),
});

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
    const form = { name: "", revision, faults: [], idempotencyKey: uuidv7() };
    return page(
      c,
      { title: `Fork ${recipe.name}`, here: "library" },
      ForkPage({ recipe, ...form }),
    );
  },
);

forks.post(
  "/:slug/forks",
  described({
    says: "A recipe of one's own that starts as a revision of another",
    body: forkBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    const refused = (faults: { path: string; says: string }[], typed: { name?: unknown }) =>
      faulty(
        c,
        { faults },
        {
          page: { title: `Fork ${recipe.name}`, here: "library" },
          view: () =>
            ForkPage({
              recipe,
              name: String(typed.name ?? ""),
              revision: recipe.head,
              faults,
              idempotencyKey: uuidv7(),
            }),
        },
      );

    const read = await readBody(c, forkBody);
    if (read.kind === "refused") return refused(read.faults, read.typed);
    const { name, revision: number = recipe.head } = read.value;
    const origin = await findRevision(db, { recipeId: recipe.id, number });
    if (!origin)
      return refused(
        [{ path: "revision", says: `${recipe.name} has no revision ${number}.` }],
        read.typed,
      );

    const draft = draftOf(origin, `Forked from ${recipe.name}, revision ${number}`);
    // A fork of what not everybody may see is shown to no more people than its origin.
    const forked = await publishRecipe(db, {
      ...actOf(c),
      name,
      shownTo: recipe.shownTo,
      forkedFrom: origin.id,
      draft,
    });
    switch (forked.kind) {
      case "published":
        return created(c, `/recipes/${forked.slug}`, await headJson(c, forked.slug));
      case "name-taken":
        return refused(
          [
            {
              path: "name",
              says: "Another recipe has this name already. Give yours one of its own.",
            },
          ],
          read.typed,
        );
    }
  },
);
