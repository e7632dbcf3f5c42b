import { Hono } from "hono";
import { z } from "zod";
import { StoryPage } from "../../views/recipes/story.tsx";
import { storyWords } from "../../views/recipes/story-words.ts";
import { listHistory } from "../db/histories.ts";
import { findRecipe } from "../db/recipes.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";

export const histories = new Hono<Env>();

const asked = z.object({
  after: z
    .string()
    .regex(/^\d{1,15}$/, "The number of an event, such as 200.")
    .transform(Number)
    .optional(),
});

histories.get(
  "/:slug/history",
  described({ says: "What became of a recipe, in order: who did what, and why", query: asked }),
  readerRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { after } = read.value;
    const found = await listHistory(db, { recipeId: recipe.id, reader, after, limit: 100 });
    const lines = found.items.map((line) => {
      const { seq, at, by, kind, why } = line;
      return { seq, at, by, kind, why, ...storyWords(line, `/recipes/${recipe.slug}`) };
    });
    return answer(c, {
      json: () => ({ items: lines, next: found.next }),
      page: { title: `The history of ${recipe.name}`, here: "library" },
      view: () => StoryPage({ recipe, lines, fromStart: after === undefined, next: found.next }),
    });
  },
);
