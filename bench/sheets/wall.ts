import { createHash } from "node:crypto";
import type postgres from "postgres";
import { v7 as uuidv7 } from "uuid";

type Sql = postgres.Sql;

/** Puts so many tiles on record, spread over every revision, with a tiny picture and a colour each. */
export async function hangMany(sql: Sql, count: number): Promise<void> {
  const revisions = await sql<{ id: string }[]>`select id from revisions order by id`;
  const [body] = await sql<{ id: string; name: string }[]>`select id, name from bodies limit 1`;
  const [person] = await sql<{ id: string }[]>`select id from people order by id limit 1`;
  if (!body || !person) throw new Error("the demo has no body or nobody in it");
  const said = { by: person.id, at: new Date("2026-10-26T10:00:00Z") };
  for (let first = 0; first < count; first += 1_000) {
    const batch = Array.from({ length: Math.min(1_000, count - first) }, (_, place) => {
      const number = first + place;
      const sha256 = createHash("sha256").update(`picture ${number}`).digest("hex");
      return { number, id: uuidv7(), sha256 };
    });
    await sql`insert into tiles ${sql(
      batch.map(({ number, id }) => ({
        ...{ id, revision_id: revisions[(number * 7919) % revisions.length]?.id ?? "" },
        ...{ cone: ["6", "5", "04", "10"][number % 4] ?? "6", atmosphere: "oxidation" },
        ...{ clay: body.name, body_id: body.id, fired_on: "2026-03-01", remark: "" },
        ...{ surface: "glossy", defects: number % 5 === 0 ? ["crazing"] : [] },
        ...said,
      })),
    )}`;
    await sql`insert into pictures ${sql(batch.map(({ sha256 }) => ({ sha256, width: 600, height: 800, ...said })))}`;
    await sql`insert into picture_bytes ${sql(batch.map(({ sha256 }) => ({ sha256, width: 0, bytes: Buffer.from("x") })))}`;
    await sql`insert into photos ${sql(batch.map(({ id, sha256 }) => ({ id: uuidv7(), tile_id: id, sha256, alt: "", ...said })))}`;
    await sql`insert into tile_colours ${sql(
      batch.map(({ number, id }) => ({
        ...{ id: uuidv7(), tile_id: id, from: "instrument", ...said },
        ...{
          lightness: (number * 37) % 100,
          a: ((number * 13) % 100) - 50,
          b: ((number * 17) % 100) - 50,
        },
      })),
    )}`;
  }
  await sql`vacuum analyze`;
}

const told = `tiles.id, recipes.slug as recipe_slug, recipes.name as recipe_name, revisions.number,
  tiles.cone, tiles.atmosphere, tiles.surface, tiles.clay, bodies.slug as body_slug,
  bodies.name as body_name, tiles.defects, tiles.over_id, tiles.fired_on, tiles.at`;

const from = `from tiles
  join revisions on revisions.id = tiles.revision_id
  join recipes on recipes.id = revisions.recipe_id
  left join bodies on bodies.id = tiles.body_id
  left join tile_withdrawals on tile_withdrawals.tile_id = tiles.id`;

const shown = "tile_withdrawals.tile_id is null and recipes.shown_to = 'public'";

const colourOf = (id: string) => `select lightness, a, b, "from" from tile_colours
  where tile_id = ${id} order by "from" = 'instrument' desc, id desc limit 1`;

const withPictures = (picked: string, order: string) => `
  select picked.*, picture.*, colour.* from (${picked}) picked
  left join lateral (
    select photos.sha256, photos.alt, pictures.width, pictures.height from photos
    join pictures on pictures.sha256 = photos.sha256
    where photos.tile_id = picked.id and not exists (
      select 1 from picture_bytes
      where picture_bytes.sha256 = photos.sha256 and width = 0 and removed_at is not null)
    order by photos.id limit 1) picture on true
  left join lateral (${colourOf("picked.id")}) colour on true
  order by ${order} limit 61`;

const newest = withPictures(
  `select ${told} ${from} where ${shown} order by tiles.id desc limit 61`,
  "picked.id desc",
);

const nearest = withPictures(
  `select ${told}, (measured.lightness - $1::float8) ^ 2 + (measured.a - $2::float8) ^ 2
     + (measured.b - $3::float8) ^ 2 as distance
   ${from} join lateral (${colourOf("tiles.id")}) measured on true
   where ${shown} order by distance, tiles.id desc limit 200`,
  "distance, picked.id desc",
);

type How = { prepare: boolean };

/** Planned anew each time, or once where it is prepared. */
export const newestRows = (sql: Sql, { prepare }: How): Promise<{ id: string }[]> =>
  prepare ? sql`${sql.unsafe(newest)}` : sql.unsafe(newest);

export const nearestRows = (
  sql: Sql,
  lab: [number, number, number],
  { prepare }: How,
): Promise<{ id: string }[]> => sql.unsafe(nearest, lab, { prepare });
