import { ShelfPlanPage } from "../../views/shelf-plan/page.tsx";
import { listPlanMaterials } from "../db/plan-materials.ts";
import { listPlanNames } from "../db/plan-recipes.ts";
import type { Typed } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import { isForm } from "../wire/media-types.ts";
import type { Fault } from "../wire/problems.tsx";
import { planLimits } from "../wire/shelf-plan-body.ts";
import type { AnsweredPlan, AnsweredReach } from "./shelf-plan-json.ts";

/** What whoever asks may ask for at a time. */
export const limitsOf = (c: Ctx) => planLimits[c.var.viewer ? "member" : "visitor"];

/** How many materials the page offers, and how many the search for one more powder tries. */
export const mostOffered = 200;

type Choices = Awaited<ReturnType<typeof choicesOf>>;

/** What the page offers to choose from. */
export async function choicesOf(c: Ctx) {
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
export async function pageAgain(c: Ctx, typed: Typed, which: "plan" | "reach") {
  const choices = isForm(c.req.header("content-type")) ? await choicesOf(c) : undefined;
  return (shown: Shown) =>
    planPage(c, choices ?? { recipes: [], recipeCount: 0, materials: [] }, {
      ...shown,
      typed,
      which,
    });
}

/** The page with both forms and an answer, where there is one. */
export function planPage(c: Ctx, choices: Choices, shown: Shown) {
  const { typed = {}, which = "plan", faults = [], plan, reach } = shown;
  const limits = limitsOf(c);
  return {
    page: {
      title: which === "plan" ? "Plan a shelf" : "How far a shelf goes",
      here: "work-it-out",
    } as const,
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
          budget: text(which === "plan" ? typed.budget : undefined),
          currency: text(which === "plan" ? typed.currency : undefined),
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
