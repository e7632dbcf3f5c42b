import { eq, sql } from "drizzle-orm";
import { mostDays } from "../chem/stock-line.ts";
import type { Db } from "./client.ts";
import {
  lots,
  materials,
  recallClosings,
  recalls,
  stockLines,
  stockMoves,
  studios,
} from "./schema/index.ts";
import { type Waiter, waitingColumns } from "./waiting-rows.ts";

/**
 * Materials of which less may be used than there should always be, as `stockState` has it, from the
 * moment that it became so. It is asked for every page, so the database works it out by itself.
 */
export const lowStock = (db: Db, { now }: Waiter) => {
  const moment = sql`${now.toISOString()}::timestamptz`;
  const ofLots = sql`(
    select l.id, l.material_id, l.at, l.grams,
      (l.best_before is null or l.best_before >= (${moment} at time zone 'UTC')::date) and r.at is null as usable,
      greatest(r.at, case when l.best_before < (${moment} at time zone 'UTC')::date then (l.best_before + 1)::timestamp at time zone 'UTC' end) as lost_at
    from ${lots} l left join lateral (
      select max(r.at) as at from ${recalls} r left join ${recallClosings} c on c.recall_id = r.id
      where r.lot_id = l.id and c.recall_id is null) r on true)`;
  const moved = sql`(
    select lot_id, sum(grams) as grams,
      coalesce(-sum(grams) filter (where because <> 'stocktake' and at > ${moment} - ${sql.raw(`interval '${mostDays} days'`)}), 0) as used
    from ${stockMoves} group by lot_id)`;
  const held = sql`(
    select l.material_id,
      coalesce(sum(l.grams + coalesce(m.grams, 0)) filter (where l.usable), 0) as usable,
      coalesce(sum(m.used), 0) as used,
      max(l.lost_at) as lost_at,
      (array_agg(l.at order by l.id))[1] as since,
      least(${sql.raw(String(mostDays))}, greatest(7, ceil(extract(epoch from ${moment} - (array_agg(l.at order by l.id))[1]) / 86400)))::integer as days
    from ${ofLots} l left join ${moved} m on m.lot_id = l.id group by l.material_id)`;
  const ownLine = sql`(
    select distinct on (material_id) material_id, grams, at from ${stockLines} order by material_id, id desc)`;
  const line = sql`coalesce(own.grams, greatest(held.used, 0) * 7 * ${studios.stockWeeks} / coalesce(held.days, 7))`;
  // The newest of what was bought and taken before which there was enough: with it the stock fell.
  const fell = sql`(
    select step.at from (
      select s.id, s.at, sum(s.grams) over (order by s.id desc) as since
      from (
        select m.id, m.at, m.grams, m.lot_id from ${stockMoves} m
        union all select l.id, l.at, l.grams, l.id from ${lots} l) s
      join ${ofLots} l on l.id = s.lot_id
      where l.material_id = ${materials.id} and l.usable) step
    where held.usable - step.since >= ${line} order by step.id desc limit 1)`;
  return db
    .select(
      waitingColumns({
        kind: "stock-low",
        slug: materials.slug,
        name: materials.name,
        detail: sql`trim_scale(round(coalesce(held.usable, 0), 1)) || ' g to use, and ' || trim_scale(round(${line}, 1)) || ' g is the least there should be'`,
        at: sql`coalesce(greatest(${fell}, held.lost_at, own.at), held.since)`,
      }),
    )
    .from(materials)
    .innerJoin(studios, eq(studios.only, 1))
    .leftJoin(sql`${held} held`, sql`held.material_id = ${materials.id}`)
    .leftJoin(sql`${ownLine} own`, sql`own.material_id = ${materials.id}`)
    .where(
      sql`case when own.grams is not null then coalesce(held.usable, 0) < own.grams
        else held.usable * held.days < greatest(held.used, 0) * 7 * ${studios.stockWeeks} end`,
    );
};
