import {
  and,
  asc,
  count,
  desc,
  eq,
  gte,
  inArray,
  isNotNull,
  lte,
  type SQL,
  sql,
} from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import { type Cone, cones, conesBetween } from "../chem/cones.ts";
import type { Stocked } from "./bucket-stock.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { headStanding, readableHead } from "./library-narrowing.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { people, recipeHeads, recipes, revisionStandings, revisions } from "./schema/index.ts";
import { isApprovedAt } from "./standings.ts";

/** A revision that is approved now, and what for. */
export type ApprovedGlaze = {
  recipeId: string;
  slug: string;
  name: string;
  owner: { id: string; name: string };
  number: number;
  for: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  melt: string;
};

/**
 * Every revision that is approved for such a piece at a cone and that the reader may know of, in the
 * order of names, the newest of each first.
 */
export async function listApproved(
  db: Db,
  { reader, now, cone, food }: { reader: Reader; now: Date; cone: Cone; food: boolean },
): Promise<ApprovedGlaze[]> {
  const place = cones.indexOf(cone);
  const rows = await db
    .select({
      recipeId: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      owner: { id: people.id, name: people.name },
      number: revisions.number,
      for: revisionStandings.for,
      low: revisions.coneLow,
      high: revisions.coneHigh,
      atmosphere: revisions.atmosphere,
      surface: revisions.surface,
      melt: revisions.meltDigest,
    })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(
      and(
        isApprovedAt(now),
        food ? eq(revisionStandings.for, "functional") : undefined,
        lte(revisions.coneLowPlace, place),
        gte(revisions.coneHighPlace, place),
        readableBy(reader),
      ),
    )
    .orderBy(asc(recipes.nameKey), asc(recipes.id), desc(revisions.number));
  return rows.flatMap(({ low, high, for: use, ...row }) =>
    // The schema bounds their shape; they were taken from the list of cones.
    use === null ? [] : [{ ...row, for: use, cones: { low: low as Cone, high: high as Cone } }],
  );
}

/** Whether a bucket may be used now for what touches food, or for what never does. */
export const isUsable = ({ bucket }: Stocked, food: boolean): boolean =>
  bucket.is === "open" && (food ? bucket.mayUse.food : bucket.mayUse.decorative);

/**
 * The cone that most buckets in use are fired at, or most approved glazes where no bucket is in
 * use; the hotter of equals, and undefined where nothing is approved.
 *
 * Worked example: buckets of cones 5 to 6 and of 6 alone count cone 5 once and cone 6 twice: cone 6.
 */
export async function usualCone(
  db: Db,
  { reader, now, stock }: { reader: Reader; now: Date; stock: readonly Stocked[] },
): Promise<Cone | undefined> {
  const usable = stock.filter((stocked) => isUsable(stocked, false));
  const approved = await approvedStretches(db, {
    ...{ reader, now },
    slugs: usable.map(({ bucket }) => bucket.recipe.slug),
  });
  const inUse = usable.flatMap(({ bucket }) =>
    approved.filter(({ slug, number }) => slug === bucket.recipe.slug && number === bucket.number),
  );
  const counted = inUse.length > 0 ? inUse : await countApproved(db, { reader, now });
  const times = new Map<Cone, number>();
  for (const { low, high, count: each } of counted)
    for (const cone of conesBetween(low as Cone, high as Cone))
      times.set(cone, (times.get(cone) ?? 0) + each);
  const most = Math.max(0, ...times.values());
  return cones.findLast((cone) => times.get(cone) === most);
}

type Reading = { reader: Reader; now: Date };

/** The cones of what is approved of some recipes, each revision once. */
async function approvedStretches(
  db: Db,
  { reader, now, slugs }: Reading & { slugs: readonly string[] },
) {
  if (slugs.length === 0) return [];
  return db
    .select({
      slug: recipes.slug,
      number: revisions.number,
      low: revisions.coneLow,
      high: revisions.coneHigh,
      count: sql<number>`1`,
    })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(
      and(
        isApprovedAt(now),
        hasUse,
        inArray(recipes.slug, [...new Set(slugs)]),
        readableBy(reader),
      ),
    );
}

/** How many revisions are approved for each stretch of cones. */
const countApproved = (db: Db, { reader, now }: Reading) =>
  db
    .select({ low: revisions.coneLow, high: revisions.coneHigh, count: count() })
    .from(revisionStandings)
    .innerJoin(revisions, eq(revisions.id, revisionStandings.revisionId))
    .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
    .where(and(isApprovedAt(now), hasUse, readableBy(reader)))
    .groupBy(revisions.coneLow, revisions.coneHigh);

const hasUse = isNotNull(revisionStandings.for);

/** Why a recipe is not among those that may be used, judged by its newest revision. */
export const leftOutWhy = [
  "decorative only",
  "draft",
  "in review",
  "needs another look",
  "another cone",
  "withdrawn",
] as const;

export type LeftOut = { why: (typeof leftOutWhy)[number]; recipes: number };

type Wanted = {
  reader: Reader;
  now: Date;
  cone: Cone;
  food: boolean;
  /** The recipes that are shown. */
  shown: readonly string[];
};

/** How many recipes that the reader may know of are left out, each counted once, by the reason. */
export async function countLeftOut(db: Db, wanted: Wanted): Promise<LeftOut[]> {
  const { reader, shown } = wanted;
  const why = whyLeftOut(wanted).as("why");
  const heads = db
    .select({ why })
    .from(recipeHeads)
    .where(
      and(
        readableHead(reader),
        // As one value: there may be thousands.
        sql`${recipeHeads.recipeId} <> all(${`{${[...new Set(shown)].join(",")}}`}::uuid[])`,
      ),
    )
    .as("heads");
  const rows = await db.select({ why: heads.why, recipes: count() }).from(heads).groupBy(heads.why);
  return leftOutWhy.flatMap((each) => rows.filter(({ why: found }) => found === each));
}

function whyLeftOut({ now, cone, food }: Pick<Wanted, "now" | "cone" | "food">) {
  const is = headStanding(now);
  const place = cones.indexOf(cone);
  const here: SQL = sql`${recipeHeads.coneLowPlace} <= ${place} and ${recipeHeads.coneHighPlace} >= ${place}`;
  const decorative: SQL = food
    ? sql`(${recipeHeads.use} = 'decorative' or (${is} = 'approved' and ${recipeHeads.for} = 'decorative'))`
    : sql`false`;
  return sql<LeftOut["why"]>`case
    when ${is} = 'withdrawn' then 'withdrawn'
    when not (${here}) then 'another cone'
    when ${decorative} then 'decorative only'
    else ${is} end`;
}
