import { and, asc, eq, isNotNull, ne, type SQL, sql } from "drizzle-orm";
import type { Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import { type Moles, meltOxides } from "../chem/restating.ts";
import type { Db } from "./client.ts";
import type { Atmosphere } from "./drafts.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { chemistries, people, recipes, revisions, withdrawals } from "./schema/index.ts";

/** A recipe's head that lies near in chemistry; `unity` holds what the distance is made of. */
export type Neighbour = {
  slug: string;
  name: string;
  owner: { name: string };
  number: number;
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  unity: Moles;
  /** See `apart`. */
  distance: number;
};

type Asked = { to: Moles; reader: Reader; besides: string; limit: number };

/**
 * The heads that the reader may know of, not withdrawn, nearest to a unity formula, nearest first.
 * On the plane of silica and alumina no two glazes are further apart than they are altogether. So
 * the index gives those that are nearest there, and the worst of the best of these says how far out
 * on the plane a nearer one could lie: nothing beyond that is read.
 *
 * @param besides the id of the recipe that is not its own neighbour.
 * @param limit no more than `mostNearest`.
 */
export async function listNearest(db: Db, asked: Asked): Promise<Neighbour[]> {
  const around = (await nearOnThePlane(db, asked)).sort(byDistance);
  const best = around.slice(0, asked.limit);
  const reach = best.at(-1)?.distance;
  const seen = Math.max(...around.map(({ onThePlane }) => onThePlane));
  const all = around.length < looked || reach === undefined || reach < seen;
  return (all ? best : await within(db, { ...asked, reach })).map(neighbourOf);
}

/** How many are looked at before it is known how far out to look; no fewer than can be asked for. */
const looked = 200;

/** How many neighbours may be asked for at a time. */
export const mostNearest = 50;

/** The first that the index gives, nearest on the plane first. */
export const nearOnThePlane = (db: Db, asked: Asked) =>
  from(db, asked)
    .orderBy(sql`${place} <-> ${placeOf(asked.to)}`)
    .limit(looked);

/** The nearest of those that lie no further than `reach` on the plane. */
export const within = (db: Db, { reach, ...asked }: Asked & { reach: number }) =>
  from(db, asked, sql`${place} <@ circle(${placeOf(asked.to)}, ${reach + room}::float8)`)
    .orderBy(asc(distanceTo(asked.to)), asc(recipes.id))
    .limit(asked.limit);

/** The last digit of a float64 decides nothing. */
const room = 1e-9;

/** As it is written in the index. */
const place = sql`point(${chemistries.unitySiO2}, ${chemistries.unityAl2O3})`;

const placeOf = ({ SiO2 = 0, Al2O3 = 0 }: Moles): SQL =>
  sql`point(${SiO2}::float8, ${Al2O3}::float8)`;

const unity = {
  Li2O: chemistries.unityLi2O,
  Na2O: chemistries.unityNa2O,
  K2O: chemistries.unityK2O,
  MgO: chemistries.unityMgO,
  CaO: chemistries.unityCaO,
  SrO: chemistries.unitySrO,
  BaO: chemistries.unityBaO,
  ZnO: chemistries.unityZnO,
  PbO: chemistries.unityPbO,
  Al2O3: chemistries.unityAl2O3,
  B2O3: chemistries.unityB2O3,
  SiO2: chemistries.unitySiO2,
};

function distanceTo(to: Moles): SQL<number> {
  const squares = meltOxides.map((oxide) => sql`(${unity[oxide]} - ${to[oxide] ?? 0}::float8) ^ 2`);
  return sql<number>`sqrt(${sql.join(squares, sql` + `)})`;
}

const from = (db: Db, { to, reader, besides }: Asked, where?: SQL) =>
  db
    .select({
      id: recipes.id,
      slug: recipes.slug,
      name: recipes.name,
      owner: people.name,
      number: revisions.number,
      use: revisions.use,
      coneLow: revisions.coneLow,
      coneHigh: revisions.coneHigh,
      atmosphere: revisions.atmosphere,
      surface: revisions.surface,
      ...unity,
      onThePlane: sql`${place} <-> ${placeOf(to)}`.mapWith(Number),
      distance: distanceTo(to).mapWith(Number),
    })
    .from(chemistries)
    .innerJoin(revisions, eq(revisions.id, chemistries.revisionId))
    .innerJoin(recipes, and(eq(recipes.id, revisions.recipeId), eq(recipes.head, revisions.number)))
    .innerJoin(people, eq(people.id, recipes.ownerId))
    .where(
      and(
        isNotNull(chemistries.unitySiO2),
        where,
        ne(recipes.id, besides),
        readableBy(reader),
        sql`${lastWord} is not true`,
      ),
    );

/** Whether the newest word on a recipe takes it back. */
const lastWord = sql`(
  select ${withdrawals.withdrawn} from ${withdrawals}
  where ${withdrawals.recipeId} = ${recipes.id} order by ${withdrawals.id} desc limit 1
)`;

type Row = Awaited<ReturnType<typeof nearOnThePlane>>[number];

const byDistance = (a: Row, b: Row): number => a.distance - b.distance || (a.id < b.id ? -1 : 1);

const neighbourOf = (row: Row): Neighbour => ({
  slug: row.slug,
  name: row.name,
  owner: { name: row.owner },
  number: row.number,
  use: row.use,
  // The schema bounds their places in the list of cones that they were taken from.
  cones: { low: row.coneLow as Cone, high: row.coneHigh as Cone },
  atmosphere: row.atmosphere,
  surface: row.surface,
  unity: Object.fromEntries(meltOxides.map((oxide) => [oxide, row[oxide] ?? 0])),
  distance: row.distance,
});
