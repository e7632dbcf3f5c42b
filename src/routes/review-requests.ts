import { Hono } from "hono";
import { z } from "zod";
import { findRecipe } from "../db/recipes.ts";
import { askForReview } from "../db/review-requests.ts";
import { findRevision } from "../db/revisions.ts";
import { created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { notYours } from "./revisions.ts";
import { headJson } from "./whole-recipe.ts";

export const reviewRequests = new Hono<Env>();

const requestBody = z.strictObject({
  /** The head where nothing is said. */
  revision: z.coerce.number().int().min(1).max(1_000_000).optional(),
  for: z.enum(["functional", "decorative"]).optional(),
  idempotencyKey,
});

reviewRequests.post(
  "/:slug/review-requests",
  described({ says: "Ask the reviewers to look at a revision", body: requestBody, status: 201 }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: c.var.viewer });
    if (!recipe) return notFound(c);
    if (!recipe.mayRevise) return notYours(c, recipe);
    const read = await readBody(c, requestBody);
    if (read.kind === "refused") return faulty(c, read);
    const number = read.value.revision ?? recipe.head;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision) {
      const says = `${recipe.name} has no revision ${number}.`;
      return faulty(c, { faults: [{ path: "revision", says }] });
    }
    if (recipe.withdrawn) {
      const says = "It is withdrawn. Put it forward again first.";
      return faulty(c, { faults: [{ path: "", says }] });
    }
    const use = read.value.for ?? revision.use;
    const asked = await askForReview(db, { ...actOf(c), recipeId: recipe.id, revision, for: use });
    switch (asked.kind) {
      case "asked":
        return created(
          c,
          `/recipes/${recipe.slug}/revisions/${number}#reviews`,
          await headJson(c, recipe.slug),
        );
      case "asked-before": {
        const says = "The reviewers were asked for this already.";
        return faulty(c, { faults: [{ path: "", says }] });
      }
    }
  },
);
