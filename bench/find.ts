import type { Hono } from "hono";
import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import type { Database } from "../src/db/client.ts";
import type { Env } from "../src/wire/context.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { handWritten } from "./sheets/find.ts";
import { fillLibrary, libraryOf } from "./sheets/library.ts";
import { handOn } from "./sheets/result.ts";

/**
 * The library of a hundred thousand recipes, asked of the whole app, against statements written by
 * hand (bench/sql) that answer the same rows through the same driver.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/find.ts [recipes, 100000] [plans]
 *
 * The bounds are on the JSON: the first page of each way to narrow it, and a search with a slip of the
 * pen, take at most twice as long as by hand; the fiftieth page at most 1.3 times as long as the
 * first. The page with its counts, a search for a powder, one by colour and the front desk are printed
 * beside them. Each by turns, the median of a hundred. With "plans" Postgres tells how it went about it.
 */
const [mostByHand, mostFurther] = [2, 1.3];
const count = Number(process.argv[2] ?? 100_000);
const plans = process.argv[3] === "plans";
const [warmUp, rounds] = [10, 100];
const all = { narrowed: "true", after: "true", further: "true" };

await inOwnDatabase(measure, { copyOf: libraryOf(count) });

async function measure({ db }: Database, url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await fillLibrary(db, client, count);
  const app = await openApp(db, readConfig({}), { broken: console.error });
  const kept: boolean[] = [];
  for (const { says, query, by } of await searches(client))
    kept.push(await beside(app, client, says, `/recipes?${query}`, by));
  kept.push(await further(app));
  for (const path of ["/recipes", "/recipes?cone=6&use=functional"])
    await alone(app, path, "text/html", "page with counts");
  await alone(app, "/recipes?q=whiting", "text/html", "page with counts");
  await alone(app, "/recipes?colour=green", "application/json", "JSON");
  await alone(app, "/start?making=mug-or-bowl", "application/json", "JSON");
  await client.end();
  return kept.every(Boolean);
}

async function searches(client: postgres.Sql) {
  const [whiting] = await client<{ id: string }[]>`select id from materials where slug = 'whiting'`;
  const id = whiting?.id ?? "";
  const narrowed = (says: string, query: string, sql: string) => ({
    ...{ says, query },
    by: handWritten("narrowed", { ...all, narrowed: sql }),
  });
  const six = `cone_low_place <= 25 and cone_high_place >= 25`.replaceAll(
    "25",
    String(await placeOf(client, "6")),
  );
  return [
    narrowed("all", "", "true"),
    narrowed("cone 6", "cone=6", six),
    narrowed("reduction", "atmosphere=reduction", "atmosphere = 'reduction'"),
    narrowed(
      "no such",
      "atmosphere=raku&use=functional",
      "atmosphere = 'raku' and use = 'functional'",
    ),
    narrowed(
      "cone 6, functional, approved",
      "cone=6&use=functional&standing=approved",
      `${six} and use = 'functional' and "is" = 'approved' and approved_until > now()`,
    ),
    narrowed(
      "surface",
      "surface=crystal&use=decorative",
      "surface_key like '%crystal%' and use = 'decorative'",
    ),
    narrowed(
      "without whiting",
      "without=whiting&atmosphere=soda",
      `not materials && array['${id}']::uuid[] and atmosphere = 'soda'`,
    ),
    narrowed(
      "silica 3 to 3.2",
      "least.SiO2=3&most.SiO2=3.2&cone=6",
      `unity_sio2 between 3 and 3.2 and ${six}`,
    ),
    narrowed("zinc over 0.15", "least.ZnO=0.15", "unity_zno >= 0.15"),
    { says: "words", query: "q=plover", by: handWritten("words", { word: "plover", powders: "" }) },
    {
      says: "a powder",
      query: "q=whiting",
      by: handWritten("words", { word: "whiting", powders: `'${id}'` }),
    },
    { says: "a slip of the pen", query: "q=plovver", by: handWritten("typo", { word: "plovver" }) },
  ];
}

async function placeOf(client: postgres.Sql, cone: string): Promise<number> {
  const [row] = await client<{ place: number }[]>`
    select cone_low_place as place from revisions where cone_low = ${cone} limit 1`;
  return row?.place ?? 0;
}

async function beside(
  app: Hono<Env>,
  client: postgres.Sql,
  says: string,
  path: string,
  by: string,
) {
  const rows = await client.unsafe<{ slug: string }[]>(by);
  const { items } = JSON.parse(await ask(app, path)) as { items: { slug: string }[] };
  const different = items.findIndex(({ slug }, place) => slug !== rows[place]?.slug);
  if (different >= 0 || items.length !== Math.min(50, rows.length))
    throw new Error(`${path} and the statement by hand do not answer the same rows: ${different}`);
  const [ours, theirs] = await byTurns([() => ask(app, path), () => client.unsafe(by)]);
  const held = handOn(
    {
      ...{ what: `finding as JSON, ${says}`, against: "a statement written by hand" },
      ...{ size: `${count} recipes`, ratio: ours / theirs, bound: { most: mostByHand } },
    },
    `${ours.toFixed(2)} ms beside ${theirs.toFixed(2)}, ${items.length} rows`,
  );
  if (plans) await tellPlan(client, by);
  return held;
}

async function tellPlan(client: postgres.Sql, by: string): Promise<void> {
  const plan = await client.unsafe(`explain (analyze, buffers) ${by}`);
  console.log(plan.map((row) => `    ${row["QUERY PLAN"]}`).join("\n"));
}

async function further(app: Hono<Env>): Promise<boolean> {
  let after = "";
  for (let page = 1; page < 50; page += 1) {
    const { next } = JSON.parse(await ask(app, `/recipes?after=${after}`)) as {
      next: string | null;
    };
    if (next === null) throw new Error(`there are only ${page} pages`);
    after = next;
  }
  const [first, fiftieth] = await byTurns([
    () => ask(app, "/recipes"),
    () => ask(app, `/recipes?after=${after}`),
  ]);
  return handOn(
    {
      ...{ what: "the fiftieth page of the library as JSON", against: "the first" },
      ...{ size: `${count} recipes`, ratio: fiftieth / first, bound: { most: mostFurther } },
    },
    `${fiftieth.toFixed(2)} ms beside ${first.toFixed(2)}`,
  );
}

async function alone(app: Hono<Env>, path: string, accept: string, what: string): Promise<void> {
  const [took] = await byTurns([() => ask(app, path, accept)]);
  console.log(`${count} recipes, ${path}: ${what} ${took.toFixed(2)} ms`);
}

/** The median of each, so that what else the machine does falls on all alike. */
async function byTurns<Ways extends (() => Promise<unknown>)[]>(ways: [...Ways]) {
  const took: number[][] = ways.map(() => []);
  for (let round = -warmUp; round < rounds; round += 1) {
    for (const [place, way] of ways.entries()) {
      const start = performance.now();
      await way();
      if (round >= 0) took[place]?.push(performance.now() - start);
    }
  }
  return took.map((each) => each.sort((a, b) => a - b)[Math.floor(rounds / 2)] ?? 0) as {
    [Way in keyof Ways]: number;
  };
}

async function ask(app: Hono<Env>, path: string, accept = "application/json"): Promise<string> {
  const answer = await app.request(`http://localhost${path}`, {
    headers: { accept, "cache-control": "no-cache" },
  });
  if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
  return answer.text();
}
