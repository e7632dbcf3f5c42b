import { Decimal } from "decimal.js";
import { type Needs, needsOfBatch, sumOfNeeds } from "../chem/shopping-needs.ts";
import { countOpenPlans, listOpenPlans, type Plan } from "../db/plans.ts";
import { findRevisions } from "../db/revisions.ts";
import { listStock, type StockOfMaterial } from "../db/stock-shelf.ts";
import { findTrial, listTrials } from "../db/trials.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import type { ShoppingAsked } from "../wire/shopping-query.ts";

/** Something that powder is wanted for, in the order in which it goes first. */
export type Wish = { kind: "plan" | "trial" | "low"; id: string; says: string; needs: Needs };

export type WishesRead = {
  wishes: Wish[];
  /** By slug. */
  stock: ReadonlyMap<string, StockOfMaterial>;
  /** All that could be ticked. */
  plans: Plan[];
  trials: { id: string; code: string; name: string }[];
  /** Open plans that the reader may not know of. */
  hiddenPlans: number;
  faults: Fault[];
};

const mostTrials = 20;
const usualGrams = new Decimal(100);

/** What is wanted: the plans, then the trials that were ticked, then what is low. */
export async function readWishes(c: Ctx, asked: ShoppingAsked): Promise<WishesRead> {
  const { db, viewer: reader, now, studio } = c.var;
  const plans = await listOpenPlans(db, reader);
  const items = await listStock(db, { now, weeks: studio.stockWeeks });
  const chosen =
    asked.plans.length === 0 ? plans : plans.filter(({ id }) => asked.plans.includes(id));
  const unknown = asked.plans.filter((id) => !plans.some((plan) => plan.id === id));
  const tried = await trialWishes(c, asked);
  const trials = await listTrials(db, { reader, limit: mostTrials });
  const mixed = [...(await planWishes(c, chosen)), ...tried.wishes];
  const low = asked.low ? lowWishes(items, sumOfNeeds(mixed.map(({ needs }) => needs))) : [];
  return {
    wishes: [...mixed, ...low],
    stock: new Map(items.map((item) => [item.material.slug, item])),
    plans,
    trials: trials.items,
    hiddenPlans: (await countOpenPlans(db)) - plans.length,
    faults: [
      ...unknown.map((id) => ({ path: "plans", says: `No open plan has the id ${id}.` })),
      ...tried.faults,
    ],
  };
}

async function planWishes(c: Ctx, plans: readonly Plan[]): Promise<Wish[]> {
  const { db, studio } = c.var;
  const found = await findRevisions(
    db,
    plans.map(({ revisionId }) => revisionId),
  );
  const lines = new Map(found.map((revision) => [revision.id, revision.lines.map(lineOf)]));
  return plans.map(({ id, recipe, revision, revisionId, baseGrams }) => ({
    kind: "plan",
    id,
    says: `${recipe.name}, revision ${revision}: ${baseGrams.toFixed()} g of base`,
    needs: needsOfBatch(lines.get(revisionId) ?? [], {
      grams: baseGrams,
      scaleGrams: studio.scaleGrams,
    }),
  }));
}

async function trialWishes(c: Ctx, { trials, trialGrams }: ShoppingAsked) {
  const wishes: Wish[] = [];
  const faults: Fault[] = [];
  for (const { id, grams = trialGrams ?? usualGrams } of trials) {
    const trial = await findTrial(c.var.db, { id, reader: c.var.viewer });
    if (!trial) {
      faults.push({ path: "trials", says: `No trial has the id ${id}.` });
      continue;
    }
    const { scaleGrams } = c.var.studio;
    const points = trial.points.map(({ lines }) =>
      needsOfBatch(lines.map(lineOf), { grams, scaleGrams }),
    );
    const says = `${trial.name}: ${points.length} points of ${grams.toFixed()} g of base`;
    wishes.push({ kind: "trial", id, says, needs: sumOfNeeds(points) });
  }
  return { wishes, faults };
}

const lineOf = <Part, Material extends { slug: string }>(line: {
  part: Part;
  amount: Decimal;
  material: Material;
}) => ({ part: line.part, amount: line.amount, slug: line.material.slug });

/** Of what would be low once everything else is weighed, as much as should always be there. */
const lowWishes = (items: readonly StockOfMaterial[], before: Needs): Wish[] =>
  items.flatMap(({ material: { slug, name }, usable, line }) => {
    const grams = line.toDecimalPlaces(4, Decimal.ROUND_UP);
    const left = Decimal.max(0, usable).minus(before.get(slug) ?? 0);
    if (grams.isZero() || left.gte(grams)) return [];
    const says = `${name}: always ${grams.toFixed()} g`;
    return [{ kind: "low", id: slug, says, needs: new Map([[slug, grams]]) }];
  });
