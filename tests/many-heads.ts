import { sql } from "drizzle-orm";
import { meltOxides } from "../src/chem/restating.ts";
import type { Db } from "../src/db/client.ts";

/**
 * Recipes without number, copied from one that was published, with unity formulas that lie where a
 * library's do: many close together in silica and alumina, whatever their fluxes are.
 */
export async function addHeads(
  db: Db,
  { like, count, shownTo = "public" }: { like: string; count: number; shownTo?: string },
): Promise<void> {
  const drawn = meltOxides.map((oxide) =>
    oxide === "SiO2" ? sql`2 + random() * random() * 3` : sql`random() * random() * 0.7`,
  );
  const columns = meltOxides.map((oxide) => sql.identifier(`unity_${oxide.toLowerCase()}`));
  await db.transaction(async (tx) => {
    await tx.execute(sql`
      create temporary table copied on commit drop as
      select gen_random_uuid() as recipe, gen_random_uuid() as revision, n
      from generate_series(1, ${count}::int) as n`);
    await tx.execute(sql`
      insert into recipes (id, slug, name, name_key, owner_id, head, shown_to, added_at)
      select recipe, 'copy-' || recipe, 'Copy ' || recipe, 'copy ' || recipe, owner_id, 1,
        ${shownTo}, added_at
      from copied, recipes where slug = ${like}`);
    await tx.execute(sql`
      insert into revisions (id, recipe_id, number, author_id, use, cone_low, cone_high,
        cone_low_place, cone_high_place, atmosphere, surface, about, message, melt_digest, digest,
        published_at)
      select copied.revision, copied.recipe, 1, author_id, use, cone_low, cone_high, cone_low_place,
        cone_high_place, atmosphere, surface, revisions.about, message, melt_digest, digest, published_at
      from copied, revisions join recipes on recipes.id = recipe_id
      where slug = ${like} and number = 1`);
    await tx.execute(sql`
      insert into chemistries (revision_id, engine, stops, detail, ${sql.join(columns, sql`, `)})
      select copied.revision, engine, stops, '{}', ${sql.join(drawn, sql`, `)}
      from copied, chemistries join revisions on revisions.id = revision_id
        join recipes on recipes.id = recipe_id
      where slug = ${like} and number = 1`);
  });
}
