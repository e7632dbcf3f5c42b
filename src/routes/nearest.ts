import { Hono } from "hono";
import { NearestPage } from "../../views/moves/nearest-page.tsx";
import { listNearest } from "../db/nearest.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { nearestQuery } from "../wire/moves-query.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { molesOf } from "./moves-sheet.ts";
import { neighbourJson } from "./nearest-json.ts";

export const nearest = new Hono<Env>();

nearest.get(
  "/:slug/nearest",
  described({
    says: "The recipes that are nearest to a revision in chemistry",
    query: nearestQuery,
  }),
  readerRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    const read = check(nearestQuery, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { revision: number = recipe.head, limit } = read.value;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision) return notFound(c);
    const { unity } = revision.chemistry;
    const to = molesOf(unity);
    const items = unity ? await listNearest(db, { to, reader, besides: recipe.id, limit }) : [];
    const { slug, name } = recipe;
    return answer(c, {
      json: () => ({
        recipe: { slug, name },
        number,
        items: items.map((each) => neighbourJson(each, to)),
      }),
      page: { title: `Nearest in chemistry to ${name}`, here: "library" },
      view: () => NearestPage({ recipe: { slug, name }, number, of: unity && to, items }),
    });
  },
);
