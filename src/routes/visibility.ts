import { Hono } from "hono";
import { z } from "zod";
import { findRecipe, setShownTo } from "../db/recipes.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { shownTo } from "../wire/recipe-body.ts";
import { notYours } from "./revisions.ts";
import { headJson } from "./whole-recipe.ts";

export const visibility = new Hono<Env>();

const visibilityBody = z.object({ shownTo });

visibility.on(
  ["PUT", "POST"],
  "/:slug/visibility",
  described({ says: "Who may see a recipe", body: visibilityBody }),
  memberRequired,
  async (c) => {
    const recipe = await findRecipe(c.var.db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);
    const read = await readBody(c, visibilityBody);
    if (read.kind === "refused") return faulty(c, read);
    await setShownTo(c.var.db, { ...actOf(c), recipeId: recipe.id, shownTo: read.value.shownTo });
    return changed(c, `/recipes/${recipe.slug}`, await headJson(c, recipe.slug));
  },
);
