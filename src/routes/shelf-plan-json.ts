import { Decimal } from "decimal.js";
import type { Price } from "../chem/cost.ts";
import { bringBaseTo100 } from "../chem/lines.ts";
import { type BaseLines, costOfPacks, type Pack, timesFromPacks } from "../chem/shelf-cost.ts";
import { type CurvePoint, type ShelfPlan, unusedOf } from "../chem/shelf-plan.ts";
import type { PlanMix, PlanPowder } from "../chem/shelf-plan-types.ts";
import type { ShelfReach } from "../chem/shelf-reach.ts";
import type { Timed } from "../work/shelf-plan.ts";
import { type AnsweredBudget, type Budget, budgetJson } from "./plan-budget.ts";
import type { ReadMaterial, ReadRecipe } from "./plan-reading.ts";

type AnsweredLine<Part> = { material: string; name: string; part: Part; amount: string };

/** A recipe restated, with its additions beside its base, both at a base of 100. */
export type AnsweredMix = {
  recipe: string;
  name: string;
  lines: AnsweredLine<"base">[];
  additions: AnsweredLine<"addition">[];
  worst: number;
};

export type StillToBeHad = { material: string; name: string; recipes: string[] };

/** What it takes to buy the shelf: a pack of each, and how far that goes. */
export type AnsweredCost = {
  packs: {
    material: string;
    name: string;
    packGrams: string | null;
    packPrice: string | null;
    currency: string | null;
  }[];
  known: { amount: string; currency: string }[];
  without: string[];
  /** Rounds of every reached recipe from one pack of each; null where a pack is not known. */
  testsOfEach: number | null;
  bucketsOfEach: number | null;
  recipes: { recipe: string; name: string; tests: number | null; buckets: number | null }[];
};

export type AnsweredPlan = {
  materials: string[];
  reached: AnsweredMix[];
  missed: { recipe: string; name: string; because: string }[];
  unused: string[];
  stillToBeHad: StillToBeHad[];
  proven: boolean;
  bound: number;
  stopped?: "steps" | "clock";
  seconds: number;
  curve?: CurvePoint[];
  cost?: AnsweredCost;
  budget?: AnsweredBudget;
};

/** Grams of a test and of a bucket, dry. */
export const testGrams = 100;
export const bucketGrams = 5000;

type Asked = {
  recipes: readonly ReadRecipe[];
  materials: readonly ReadMaterial[];
  powders: readonly PlanPowder[];
  /** By material; undefined for a visitor, whom prices do not concern. */
  prices: ReadonlyMap<string, Price> | undefined;
  budget?: Budget | undefined;
};

export function planJson(plan: Timed<ShelfPlan>, asked: Asked): AnsweredPlan {
  const { powders, recipes, prices, budget } = asked;
  const label = (at: number) => powders[at]?.label ?? "";
  const materials = plan.shelf.map(label);
  const reached = plan.reached.map(({ target, ...mix }) => mixJson(mix, recipes[target], powders));
  return {
    materials,
    reached,
    missed: plan.missed.map(({ target, because }) => ({ ...called(recipes[target]), because })),
    unused: unusedOf(plan).map(label),
    stillToBeHad: stillToBeHad(reached, materials),
    proven: plan.proven,
    bound: plan.bound,
    ...(plan.stopped && { stopped: plan.stopped }),
    seconds: plan.seconds,
    ...(plan.curve && { curve: plan.curve }),
    ...(prices && { cost: costJson(materials, reached, asked, prices) }),
    ...(budget && { budget: budgetJson(budget, plan.shelf, powders) }),
  };
}

function mixJson(
  { lines, worst }: PlanMix,
  recipe: ReadRecipe | undefined,
  powders: readonly PlanPowder[],
): AnsweredMix {
  return {
    ...called(recipe),
    lines: lines.map(({ powder, amount }) => {
      const { label = "", name = "" } = powders[powder] ?? {};
      return { material: label, name, part: "base", amount };
    }),
    additions: additionsOf(recipe),
    worst,
  };
}

const called = (recipe: ReadRecipe | undefined) => ({
  recipe: recipe?.label ?? "",
  name: recipe?.name ?? "",
});

const additionsOf = (recipe: ReadRecipe | undefined): AnsweredLine<"addition">[] =>
  (bringBaseTo100(recipe?.lines ?? []) ?? []).flatMap(({ key, name, part, amount }) =>
    part === "addition" ? [{ material: key, name, part, amount: amount.toFixed() }] : [],
  );

/** Additions of the recipes that are not on the shelf, each with the recipes that want it. */
function stillToBeHad(
  recipes: readonly Pick<AnsweredMix, "recipe" | "additions">[],
  shelf: readonly string[],
): StillToBeHad[] {
  const wanted = new Map<string, StillToBeHad>();
  for (const { recipe, additions } of recipes) {
    for (const { material, name } of additions) {
      if (shelf.includes(material)) continue;
      const known = wanted.get(material) ?? { material, name, recipes: [] };
      if (!known.recipes.includes(recipe)) known.recipes.push(recipe);
      wanted.set(material, known);
    }
  }
  return [...wanted.values()].sort((a, b) => (a.material < b.material ? -1 : 1));
}

function costJson(
  shelf: readonly string[],
  reached: readonly AnsweredMix[],
  { materials }: Asked,
  prices: ReadonlyMap<string, Price>,
): AnsweredCost {
  const packs = shelf.map((label): Pack => {
    const { id = "", name = label } = materials.find((each) => each.label === label) ?? {};
    return { label, name, price: prices.get(id) ?? null };
  });
  const bases = reached.map(
    ({ lines }): BaseLines =>
      lines.map(({ material, amount }) => ({ label: material, amount: new Decimal(amount) })),
  );
  const { known, without } = costOfPacks(packs);
  return {
    packs: packs.map(({ label, name, price }) => ({
      material: label,
      name,
      packGrams: price?.packGrams.toFixed() ?? null,
      packPrice: price?.packPrice.toFixed(2) ?? null,
      currency: price?.currency ?? null,
    })),
    known: known.map(({ amount, currency }) => ({ amount: amount.toFixed(2), currency })),
    without,
    testsOfEach: timesFromPacks(bases, packs, testGrams),
    bucketsOfEach: timesFromPacks(bases, packs, bucketGrams),
    recipes: reached.map(({ recipe, name }, at) => {
      const base = [bases[at] ?? []];
      return {
        recipe,
        name,
        tests: timesFromPacks(base, packs, testGrams),
        buckets: timesFromPacks(base, packs, bucketGrams),
      };
    }),
  };
}

export type AnsweredReach = {
  have: string[];
  asTheyAre: { recipe: string; name: string }[];
  restated: AnsweredMix[];
  withOneMore: { recipe: string; name: string; materials: { material: string; name: string }[] }[];
  beyond: { recipe: string; name: string; because: string }[];
  opens: { material: string; name: string; recipes: { recipe: string; name: string }[] }[];
  opensMost: string | null;
  /** Additions of what can be made now. */
  stillToBeHad: StillToBeHad[];
  stopped?: "clock";
  seconds: number;
};

export function reachJson(
  reach: Timed<ShelfReach>,
  { recipes, powders, have }: Pick<Asked, "recipes" | "powders"> & { have: readonly string[] },
): AnsweredReach {
  const material = (at: number) => {
    const { label = "", name = "" } = powders[at] ?? {};
    return { material: label, name };
  };
  const asTheyAre = reach.asTheyAre.map((target) => ({
    ...called(recipes[target]),
    additions: additionsOf(recipes[target]),
  }));
  const restated = reach.restated.map(({ target, ...mix }) =>
    mixJson(mix, recipes[target], powders),
  );
  const opens = reach.opens.map(({ powder, targets }) => ({
    ...material(powder),
    recipes: targets.map((target) => called(recipes[target])),
  }));
  return {
    have: [...have],
    asTheyAre: asTheyAre.map(({ recipe, name }) => ({ recipe, name })),
    restated,
    withOneMore: reach.withOneMore.map(({ target, powders: more }) => ({
      ...called(recipes[target]),
      materials: more.map(material),
    })),
    beyond: reach.beyond.map(({ target, because }) => ({ ...called(recipes[target]), because })),
    opens,
    opensMost: opens[0]?.material ?? null,
    stillToBeHad: stillToBeHad([...asTheyAre, ...restated], have),
    ...(reach.stopped && { stopped: reach.stopped }),
    seconds: reach.seconds,
  };
}
