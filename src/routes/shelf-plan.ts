import { Hono } from "hono";
import { listPlanMaterials } from "../db/plan-materials.ts";
import { answer } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { isForm } from "../wire/media-types.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { type AskedRecipe, planBody, planLimits, reachBody } from "../wire/shelf-plan-body.ts";
import { solver } from "../work/solver.ts";
import { inSmallest, readBudget } from "./plan-budget.ts";
import {
  ofShelf,
  powdersOf,
  type RecipesRead,
  readAllRecipes,
  readMaterials,
  readRecipes,
  targetsOf,
} from "./plan-reading.ts";
import { planJson, reachJson } from "./shelf-plan-json.ts";
import { choicesOf, limitsOf, mostOffered, pageAgain, planPage } from "./shelf-plan-sheet.ts";
import { askerOf, unsolved } from "./solved.ts";

export const shelfPlans = new Hono<Env>();

shelfPlans.get(
  "/shelf-plan",
  described({ says: "What a shelf can be planned for, and a page that plans it" }),
  readerRequired,
  async (c) => {
    const shown = await choicesOf(c);
    return answer(c, {
      json: () => ({ limits: limitsOf(c), ...shown }),
      ...planPage(c, shown, {}),
    });
  },
);

shelfPlans.post(
  "/shelf-plan",
  described({
    says: "The few materials from which the most recipes can be restated; nothing stored",
    body: planBody(planLimits.member),
  }),
  readerRequired,
  async (c) => {
    const read = await readBody(c, planBody(limitsOf(c)));
    const again = await pageAgain(c, read.typed, "plan");
    if (read.kind === "refused") return faulty(c, read, again({ faults: read.faults }));
    const { db } = c.var;
    const { candidates, size, within, curve, all } = read.value;
    const chosen = await recipesOf(c, all ? undefined : read.value.recipes);
    if (chosen.kind === "not-found") return notFound(c);
    const { materials, faults } = await readMaterials(db, candidates, "candidates");
    const wrong = [...faults, ...chosen.faults];
    if (wrong.length > 0) return faulty(c, { faults: wrong }, again({ faults: wrong }));

    const { recipes } = chosen;
    const { powders, prices, currency } = await powdersOf(db, materials, read.value.currency);
    const purse = readBudget(c, read.value, currency);
    if (purse.faults.length > 0) return faulty(c, purse, again(purse));
    const { budget } = purse;
    const targets = targetsOf(recipes);
    const asked = {
      powders,
      targets,
      within,
      size,
      budget: budget && inSmallest(budget),
      curve: curve || isForm(c.req.header("content-type")),
    };
    const solved = await solver.solve("shelf-plan", asked, askerOf(c));
    if (solved.kind !== "done" && solved.kind !== "stopped") return unsolved(c, solved);
    const plan = planJson(solved.kind === "done" ? solved.output : solved.best, {
      recipes,
      materials,
      powders,
      prices: c.var.viewer && prices,
      budget,
    });
    return answer(c, { json: () => plan, ...again({ plan }) });
  },
);

shelfPlans.get(
  "/shelf-reach",
  described({ says: "On to the page that asks how far a shelf goes" }),
  readerRequired,
  (c) => c.redirect("/shelf-plan#reach-form", 302),
);

shelfPlans.post(
  "/shelf-reach",
  described({
    says: "Which recipes a shelf makes as they are, restated, or with one more powder; nothing stored",
    body: reachBody(planLimits.member),
  }),
  readerRequired,
  async (c) => {
    const read = await readBody(c, reachBody(limitsOf(c)));
    const again = await pageAgain(c, read.typed, "reach");
    if (read.kind === "refused") return faulty(c, read, again({ faults: read.faults }));
    const { db } = c.var;
    const chosen = await recipesOf(c, read.value.recipes);
    if (chosen.kind === "not-found") return notFound(c);
    const { materials, faults } = await readMaterials(db, read.value.have, "have");
    const wrong = [...faults, ...chosen.faults];
    if (wrong.length > 0) return faulty(c, { faults: wrong }, again({ faults: wrong }));

    const { recipes } = chosen;
    const have = materials.map(({ label }) => label);
    const others = (await listPlanMaterials(db, { limit: mostOffered }))
      .map(ofShelf)
      .filter(({ label }) => !have.includes(label));
    const { powders } = await powdersOf(db, [...materials, ...others]);
    const places = new Map(powders.map(({ label }, at) => [label, at]));
    const bases = recipes.map(({ lines }) =>
      lines.flatMap(({ part, key }) => (part === "base" ? [places.get(key) ?? -1] : [])),
    );
    const { within } = read.value;
    const asked = { powders, targets: targetsOf(recipes), within, have: have.length, bases };
    const solved = await solver.solve("shelf-reach", asked, askerOf(c));
    if (solved.kind !== "done" && solved.kind !== "stopped") return unsolved(c, solved);
    const found = solved.kind === "done" ? solved.output : solved.best;
    const reach = reachJson(found, { recipes, powders, have });
    return answer(c, { json: () => reach, ...again({ reach }) });
  },
);

async function recipesOf(c: Ctx, asked: readonly AskedRecipe[] | undefined): Promise<RecipesRead> {
  const { db, viewer } = c.var;
  if (asked) return readRecipes(db, asked, viewer);
  const recipes = await readAllRecipes(db, viewer, limitsOf(c).recipes);
  const none = { path: "recipes", says: "There is no recipe in the library that you may see." };
  return { kind: "read", recipes, faults: recipes.length === 0 ? [none] : [] };
}
