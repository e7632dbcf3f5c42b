import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { PlansPage } from "../../views/plans/page.tsx";
import { weighedBatch } from "../chem/weighed-batch.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import { addPlan, endPlan, findPlan, listOpenPlans, type Plan } from "../db/plans.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { answer, changed, created } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { planBody, planEndBody } from "../wire/plan-body.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";

export const plans = new Hono<Env>();

plans.get(
  "/plans",
  described({ says: "The batches that the studio means to mix, in the order of their making" }),
  memberRequired,
  async (c) => {
    const items = await listOpenPlans(c.var.db, c.var.viewer);
    const json = () => ({ items: items.map(planJson), next: null });
    return answer(c, { json, ...plansPage(c, items, c.req.query(), []) });
  },
);

plans.post(
  "/plans",
  described({
    says: "Plan a batch of a revision, by the weight of its base or to fill so many litres",
    body: planBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const { db, viewer: reader, studio } = c.var;
    const read = await readBody(c, planBody);
    const again = async (faults: readonly Fault[], status: 415 | 422 = 422) =>
      faulty(
        c,
        { status, faults },
        plansPage(c, await listOpenPlans(db, reader), read.typed, faults),
      );
    if (read.kind === "refused") return again(read.faults, read.status);
    const { recipe: slug, revision: asked, grams, fill, note } = read.value;
    const recipe = await findRecipe(db, { slug, reader });
    if (!recipe) return again([{ path: "recipe", says: `There is no recipe at “${slug}”.` }]);
    const number = asked ?? recipe.head;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision) {
      const says = `${recipe.name} has no revision ${number}; the head is ${recipe.head}.`;
      return again([{ path: "revision", says }]);
    }
    const batch = weighedBatch(
      await withDryGravities(db, revision.lines, ({ material }) => material.id),
      {
        ...{ grams, fill, scaleGrams: studio.scaleGrams },
      },
    );
    if (batch.kind === "refused") return again(batch.faults);
    const { baseGrams } = batch;
    const planned = { revisionId: revision.id, baseGrams, note };
    const id = await addPlan(db, { ...planned, ...actOf(c) });
    const plan = await findPlan(db, { id, reader });
    return created(c, "/plans", plan && planJson(plan));
  },
);

plans.on(
  ["PUT", "POST"],
  "/plans/:id/end",
  described({ says: "Say that a plan needs no powder any more", body: planEndBody }),
  managerRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const plan = await findPlan(db, { id: c.req.param("id"), reader });
    if (!plan) return notFound(c);
    const read = await readBody(c, planEndBody);
    if (read.kind === "refused") return faulty(c, read);
    const ended = await endPlan(db, { planId: plan.id, is: read.value.is, ...actOf(c) });
    if (ended.kind === "ended-otherwise") {
      const detail = `Somebody has ended this plan before you: ${ended.is}.`;
      return refuse(c, { status: 409, title: "Ended already", detail });
    }
    const now = await findPlan(db, { id: plan.id, reader });
    return changed(c, "/plans", now && planJson(now));
  },
);

const planJson = ({ revisionId: _, baseGrams, ...plan }: Plan) => ({
  ...plan,
  baseGrams: baseGrams.toFixed(),
});

const plansPage = (c: Ctx, items: readonly Plan[], typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "Planned batches", here: "buckets" as const },
  view: () =>
    PlansPage({
      plans: items,
      mayPlan: memberOf(c).role === "manager",
      typed: (path) => typedText(typed, path),
      faults,
      newKey: uuidv7,
    }),
});
