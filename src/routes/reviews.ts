import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { ReviewPage } from "../../views/reviews/page.tsx";
import { findRecipe } from "../db/recipes.ts";
import { findReviewable, type GivenReview, giveReview, listReviews } from "../db/reviews.ts";
import { findRevision } from "../db/revisions.ts";
import { created, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";

export const reviews = new Hono<Env>();

const number = z.coerce.number().int().min(1).max(1_000_000);

const reviewBody = z.strictObject({
  /** The head where nothing is said. */
  revision: number.optional(),
  verdict: z.enum(["approve", "object", "remark"], { error: "Approve, object or remark." }),
  /** What it is approved for; what the revision says where nothing is said. */
  for: z.enum(["functional", "decorative"]).optional(),
  reasons: text(4000),
  idempotencyKey,
});

reviews.get(
  "/:slug/reviews",
  described({ says: "What reviewers said of a recipe, newest first" }),
  readerRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    if (!wantsJson(c)) return c.redirect(`/recipes/${recipe.slug}#reviews`, 302);
    return c.json({ items: await listReviews(c.var.db, { recipeId: recipe.id }), next: null });
  },
);

reviews.post(
  "/:slug/reviews",
  described({ says: "Review a revision", body: reviewBody, status: 201 }),
  memberRequired,
  async (c) => {
    const { db } = c.var;
    const viewer = memberOf(c);
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    if (viewer.role === "member") return notAllowed(c, reviewersOnly);
    const read = await readBody(c, reviewBody);
    const asked = number.catch(recipe.head).parse(read.typed.revision);
    const found = await findRevision(db, { recipeId: recipe.id, number: asked });
    const again = async (faults: readonly Fault[]) => {
      const revision =
        found ?? (await findRevision(db, { recipeId: recipe.id, number: recipe.head }));
      if (!revision) throw new Error("every recipe has a head");
      const reviewable = await findReviewable(db, { revision, readerId: viewer.id });
      return {
        page: { title: `A review of ${recipe.name}`, here: "library" as const },
        view: () =>
          ReviewPage({
            recipe,
            revision,
            reviewable,
            typed: typedOf(read.typed),
            faults,
            idempotencyKey: uuidv7(),
          }),
      };
    };
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));
    if (!found) {
      const faults = [{ path: "revision", says: `${recipe.name} has no revision ${asked}.` }];
      return faulty(c, { faults }, await again(faults));
    }

    const { verdict, for: use = found.use, reasons } = read.value;
    const given = await giveReview(db, {
      ...actOf(c),
      recipe,
      revision: found,
      verdict,
      for: use,
      reasons,
    });
    if (given.kind === "given") {
      const all = await listReviews(db, { recipeId: recipe.id });
      const review = all.find(({ id }) => id === given.id);
      return created(c, `/recipes/${recipe.slug}/revisions/${found.number}#reviews`, review);
    }
    if (given.kind === "own-content") return notAllowed(c, ownContent);
    const faults = faultsOf(given);
    return faulty(c, { faults }, await again(faults));
  },
);

const reviewersOnly =
  "Reviewers and managers review. Put a note on it instead; one that objects stands in the way of approval.";

const ownContent =
  "You wrote this revision, or the first one that says the same, so your review would not count. Ask another reviewer; with nobody else, a manager can make somebody a reviewer on the page of people.";

function faultsOf(refused: Exclude<GivenReview, { kind: "given" | "own-content" }>): Fault[] {
  switch (refused.kind) {
    case "withdrawn":
      return [
        { path: "verdict", says: "The recipe is withdrawn. It has to be put forward again first." },
      ];
    case "decorative-only":
      return [
        { path: "for", says: "The revision says decorative only. Publish it as functional first." },
      ];
    case "moved":
      return refused.moved.map((moved) => ({
        path: "verdict",
        says: `With the powders in use now it has moved: ${moved}. Publish it with today's powders and review that.`,
      }));
    case "missing":
      return refused.gaps.map(({ says }) => ({ path: "for", says }));
  }
}

const findTheRecipe = (c: Ctx) =>
  findRecipe(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

const typedOf = (typed: Typed) => ({
  verdict: typedText(typed, "verdict"),
  for: typedText(typed, "for"),
  reasons: typedText(typed, "reasons"),
});
