import { Hono } from "hono";
import { html } from "hono/html";
import { z } from "zod";
import { NewsLines } from "../../views/recipes/news.tsx";
import { newsWords } from "../../views/recipes/news-words.ts";
import { listNews } from "../db/news.ts";
import { findRecipe } from "../db/recipes.ts";
import { wantsJson } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";

export const news = new Hono<Env>();

const asked = z.object({
  /** The number of the latest event that is known of already: a page has it from when it was made. */
  since: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER),
});

news.get(
  "/:slug/news",
  described({ says: "What others did on a recipe since a page was made", query: asked }),
  readerRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);

    const found = await listNews(db, { recipeId: recipe.id, since: read.value.since, reader });
    const lines = found.flatMap(({ by, at, ...happened }) => {
      const words = newsWords(happened, `/recipes/${recipe.slug}`);
      return words ? [{ by, at, ...words }] : [];
    });
    if (!wantsJson(c)) return c.html(html`${NewsLines({ lines })}`);
    return c.json({ items: lines.map(({ shows: _, ...line }) => line), next: null });
  },
);
