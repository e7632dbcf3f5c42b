import { Hono } from "hono";
import { z } from "zod";
import { findRecipe, setWithdrawn } from "../db/recipes.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { text, ticked } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { notYours } from "./revisions.ts";
import { headJson } from "./whole-recipe.ts";

export const withdrawals = new Hono<Env>();

const reason = z.object({ why: text(1000) });
/** `forSafety` puts every recipe that is the same glaze at "needs another look". */
const withdrawal = reason.extend({ forSafety: ticked.default(false) });

const withdraw = (withdrawn: boolean) => async (c: Ctx) => {
  const { db } = c.var;
  const slug = c.req.param("slug") ?? "";
  const recipe = await findRecipe(db, { slug, reader: c.var.viewer });
  if (!recipe) return notFound(c);
  if (!recipe.mayRevise) return notYours(c, recipe);
  const read = await readBody(c, withdrawn ? withdrawal : reason);
  if (read.kind === "refused") return faulty(c, read);
  if (withdrawn === (recipe.withdrawn !== null)) {
    const says = withdrawn ? "It is withdrawn already." : "It is not withdrawn.";
    return faulty(c, { faults: [{ path: "", says }] });
  }
  const { why, forSafety } = { forSafety: false, ...read.value };
  await setWithdrawn(db, { ...actOf(c), recipeId: recipe.id, withdrawn, forSafety, why });
  return changed(c, `/recipes/${recipe.slug}`, await headJson(c, recipe.slug));
};

const takeBack = described({ says: "Withdraw a recipe, with the reason", body: withdrawal });
const putForward = described({
  says: "Put a withdrawn recipe forward again, with the reason",
  body: reason,
});

withdrawals.on(["PUT", "POST"], "/:slug/withdrawal", takeBack, memberRequired, withdraw(true));
withdrawals.on("DELETE", "/:slug/withdrawal", putForward, memberRequired, withdraw(false));
withdrawals.post("/:slug/withdrawal/end", putForward, memberRequired, withdraw(false));
