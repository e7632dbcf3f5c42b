import { Hono } from "hono";
import { z } from "zod";
import type { Cone } from "../chem/cones.ts";
import { bringBaseTo } from "../chem/exact-base.ts";
import { trialMark } from "../chem/tile-marks.ts";
import type { Draft } from "../db/drafts.ts";
import { makeRecipeOfPoint } from "../db/trial-recipes.ts";
import { created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { pointSheet, type ReadPlace, readPoint } from "./trial-points.ts";
import { headJson } from "./whole-recipe.ts";

export const trialRecipes = new Hono<Env>();

const recipeOfPointBody = z.strictObject({
  name: line(80),
  /** That it is to be fired at; where nothing is said, the one that the point came out at. */
  cone: cone.optional(),
  idempotencyKey,
});

trialRecipes.post(
  "/:id/points/:n/recipe",
  described({
    says: "Make a point a recipe of one's own, which starts as a draft",
    body: recipeOfPointBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const place = await readPoint(c, c.req.param());
    if (!place) return notFound(c);
    const read = await readBody(c, recipeOfPointBody);
    const again = async (faults: readonly Fault[]) =>
      faulty(
        c,
        { faults },
        await pointSheet(c, place, { faults, typed: (path) => typedText(read.typed, path) }),
      );
    if (read.kind === "refused") return again(read.faults);
    const { name, cone: asked } = read.value;
    const { trial, point } = place;
    const made = await makeRecipeOfPoint(c.var.db, {
      trialId: trial.id,
      n: point.n,
      name,
      draft: draftOfPoint(place, asked),
      ...actOf(c),
    });
    switch (made.kind) {
      case "published":
        return created(c, `/recipes/${made.slug}`, await headJson(c, made.slug));
      case "name-taken":
        return again([
          {
            path: "name",
            says: "Another recipe has this name already. Give yours one of its own.",
          },
        ]);
    }
  },
);

/** Where neither the trial nor a result names a cone, the one that most studios fire to. */
const usualCone: Cone = "6";

function draftOfPoint({ trial, point }: ReadPlace, asked: Cone | undefined): Draft {
  const cameOut = point.results.findLast(
    ({ cone, withdrawn }) => cone !== null && withdrawn === null,
  );
  const at = asked ?? cameOut?.cone ?? trial.cone ?? usualCone;
  const mark = trialMark(trial, point.n);
  return {
    lines: bringBaseTo(point.lines, 6),
    use: "decorative",
    cones: { low: at, high: at },
    atmosphere: "oxidation",
    surface: cameOut?.surface ?? "",
    about: "",
    message: `${mark} of the trial “${trial.name}”`,
  };
}
