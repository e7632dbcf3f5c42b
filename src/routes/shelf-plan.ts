import { Hono } from "hono";
import { ShelfPlanPage } from "../../views/shelf-plan/page.tsx";
import { listPlanMaterials } from "../db/plan-materials.ts";
import { listPlanNames } from "../db/plan-recipes.ts";
import { answer } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { isForm } from "../wire/media-types.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { type AskedRecipe, planBody, planLimits, reachBody } from "../wire/shelf-plan-body.ts";
import { solver } from "../work/solver.ts";
import {
  ofShelf,
  powdersOf,
  type RecipesRead,
  readAllRecipes,
  readMaterials,
  readRecipes,
  targetsOf,
} from "./plan-reading.ts";
import { type AnsweredPlan, type AnsweredReach, planJson, reachJson } from "./shelf-plan-json.ts";
import { askerOf, unsolved } from "./solved.ts";

export const shelfPlans = new Hono<Env>();

const limitsOf = (c: Ctx) => planLimits[c.var.viewer ? "member" : "visitor"];

/** How many materials the page offers, and how many the search for one more powder tries. */
const mostOffered = 200;

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
    const { powders, prices } = await powdersOf(db, materials);
    const targets = targetsOf(recipes);
    const asked = { powders, targets, within, size, curve: curve || isForm(contentType(c)) };
    const solved = await solver.solve("shelf-plan", asked, askerOf(c));
    if (solved.kind !== "done" && solved.kind !== "stopped") return unsolved(c, solved);
    const plan = planJson(solved.kind === "done" ? solved.output : solved.best, {
      recipes,
      materials,
      powders,
      prices: c.var.viewer && prices,
    });
    return answer(c, { json: () => plan, ...again({ plan }) });
  },
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

const contentType = (c: Ctx) => c.req.header("content-type");

async function recipesOf(c: Ctx, asked: readonly AskedRecipe[] | undefined): Promise<RecipesRead> {
  const { db, viewer } = c.var;
  if (asked) return readRecipes(db, asked, viewer);
  const recipes = await readAllRecipes(db, viewer, limitsOf(c).recipes);
  const none = { path: "recipes", says: "There is no recipe in the library that you may see." };
  return { kind: "read", recipes, faults: recipes.length === 0 ? [none] : [] };
}

type Choices = Awaited<ReturnType<typeof choicesOf>>;

async function choicesOf(c: Ctx) {
  const { db, viewer } = c.var;
  const { recipes, count } = await listPlanNames(db, { reader: viewer, limit: mostOffered });
  const materials = await listPlanMaterials(db, { limit: mostOffered });
  return {
    recipes,
    recipeCount: count,
    materials: materials.map(({ slug, name, kind }) => ({ slug, name, kind })),
  };
}

type Shown = {
  typed?: Typed;
  which?: "plan" | "reach";
  faults?: readonly Fault[];
  plan?: AnsweredPlan;
  reach?: AnsweredReach;
};

/** The page with what was typed in it; its choices are read only where it is shown. */
async function pageAgain(c: Ctx, typed: Typed, which: "plan" | "reach") {
  const choices = isForm(contentType(c)) ? await choicesOf(c) : undefined;
  return (shown: Shown) =>
    planPage(c, choices ?? { recipes: [], recipeCount: 0, materials: [] }, {
      ...shown,
      typed,
      which,
    });
}

function planPage(c: Ctx, choices: Choices, shown: Shown) {
  const { typed = {}, which = "plan", faults = [], plan, reach } = shown;
  const limits = limitsOf(c);
  return {
    page: { title: "Plan a shelf", here: "work-it-out" } as const,
    view: () =>
      ShelfPlanPage({
        ...choices,
        limits,
        member: c.var.viewer !== undefined,
        planned: {
          recipes: which === "plan" ? texts(typed.recipes) : [],
          all: which === "plan" ? typed.all !== undefined : true,
          candidates: which === "plan" ? texts(typed.candidates) : [],
          size: text(which === "plan" ? typed.size : undefined) || "6",
          within: text(which === "plan" ? typed.within : undefined) || "0.05",
        },
        had: {
          have: which === "reach" ? texts(typed.have) : [],
          within: text(which === "reach" ? typed.within : undefined) || "0.05",
        },
        which,
        faults,
        plan,
        reach,
      }),
  };
}

const text = (sent: unknown): string =>
  typeof sent === "string" || typeof sent === "number" ? String(sent) : "";

const texts = (sent: unknown): string[] =>
  (Array.isArray(sent) ? sent : [sent]).filter((each) => typeof each === "string");
