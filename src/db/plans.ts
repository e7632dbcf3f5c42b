import type { Decimal } from "decimal.js";
import { and, asc, eq, inArray, isNull, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid, v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Reader, readableBy } from "./recipes.ts";
import {
  mixPlanEnds,
  mixPlans,
  people,
  type planEndings,
  recipes,
  revisions,
} from "./schema/index.ts";

export type PlanEnding = (typeof planEndings)[number];

/** A batch that the studio means to mix. */
export type Plan = {
  id: string;
  recipe: { slug: string; name: string };
  revisionId: string;
  revision: number;
  baseGrams: Decimal;
  note: string;
  by: string;
  at: Date;
  /** null while it needs powder. */
  end: { is: PlanEnding; by: string; at: Date } | null;
};

/** The plans that nobody ended, in the order of their making, where the reader may know of the recipe. */
export const listOpenPlans = (db: Db, reader: Reader): Promise<Plan[]> =>
  readPlans(db, and(isNull(mixPlanEnds.planId), readableBy(reader)));

/** How many open plans there are, whoever may know of them. */
export const countOpenPlans = async (db: Db): Promise<number> =>
  (await readPlans(db, isNull(mixPlanEnds.planId))).length;

/** One plan, where the reader may know of the recipe. */
export async function findPlan(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<Plan | undefined> {
  if (!isUuid(id)) return undefined;
  return (await readPlans(db, and(eq(mixPlans.id, id), readableBy(reader))))[0];
}

/** A plan is called by its recipe, for the record. */
export const findRecipesOfPlans = (db: Db, ids: readonly string[]) =>
  db
    .select({ id: mixPlans.id, name: recipes.name, slug: recipes.slug })
    .from(mixPlans)
    .innerJoin(revisions, eq(revisions.id, mixPlans.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(inArray(mixPlans.id, [...ids]));

async function readPlans(db: Db, which: SQL | undefined): Promise<Plan[]> {
  const enders = alias(people, "enders");
  const rows = await db
    .select({
      id: mixPlans.id,
      recipe: { slug: recipes.slug, name: recipes.name },
      revisionId: mixPlans.revisionId,
      revision: revisions.number,
      baseGrams: mixPlans.baseGrams,
      note: mixPlans.note,
      by: people.name,
      at: mixPlans.at,
      endIs: mixPlanEnds.is,
      endBy: enders.name,
      endAt: mixPlanEnds.at,
    })
    .from(mixPlans)
    .innerJoin(revisions, eq(revisions.id, mixPlans.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, mixPlans.by))
    .leftJoin(mixPlanEnds, eq(mixPlanEnds.planId, mixPlans.id))
    .leftJoin(enders, eq(enders.id, mixPlanEnds.by))
    .where(which)
    .orderBy(asc(mixPlans.id));
  return rows.map(({ endIs, endBy, endAt, ...plan }) => ({
    ...plan,
    end:
      endIs === null || endBy === null || endAt === null
        ? null
        : { is: endIs, by: endBy, at: endAt },
  }));
}

type NewPlan = { revisionId: string; baseGrams: Decimal; note: string };

/** Plans a batch of a revision that was found through the reader's scope. @returns its id. */
export async function addPlan(
  db: Db,
  { by, at, ...planned }: Act & NewPlan & { by: string },
): Promise<string> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    await tx.insert(mixPlans).values({ id, ...planned, by, at });
    const detail = { revision: planned.revisionId, baseGrams: planned.baseGrams.toFixed() };
    const happening = { kind: "plan added", subject: "plan", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return id;
  });
}

export type PlanEnded = { kind: "ended" } | { kind: "ended-otherwise"; is: PlanEnding };

/** Ends a plan that was found through the reader's scope; said again in the same word it stays so. */
export async function endPlan(
  db: Db,
  { planId, is, by, at }: Act & { by: string; planId: string; is: PlanEnding },
): Promise<PlanEnded> {
  return db.transaction(async (tx) => {
    const row = { planId, is, by, at };
    const [ended] = await tx.insert(mixPlanEnds).values(row).onConflictDoNothing().returning();
    if (!ended) {
      const [before] = await tx
        .select({ is: mixPlanEnds.is })
        .from(mixPlanEnds)
        .where(eq(mixPlanEnds.planId, planId));
      return before && before.is !== is
        ? { kind: "ended-otherwise", is: before.is }
        : { kind: "ended" };
    }
    const happening = { kind: "plan ended", subject: "plan", subjectId: planId } as const;
    await appendEvent(tx, { by, at }, { ...happening, detail: { is } });
    return { kind: "ended" };
  });
}
