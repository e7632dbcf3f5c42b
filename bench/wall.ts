import type { Hono } from "hono";
import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import type { Database } from "../src/db/client.ts";
import { makeMany } from "../src/demo/making-many.ts";
import { startPreparing } from "../src/demo/preparing.ts";
import { openDemoStudio } from "../src/demo/studio.ts";
import type { Env } from "../src/wire/context.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { hangMany, nearestRows, newestRows } from "./sheets/wall.ts";

/**
 * The first page of the wall of ten thousand tiles with a picture and a colour each, asked of the
 * whole app, against the bare query of the same rows with the same joins through the same driver.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/wall.ts [tiles, 10000]
 *
 * The bounds are on the JSON. In the order of colours, where the database looks at every tile, it
 * takes at most 1.5 times as long. Newest first, the index gives sixty rows in less time than a
 * request takes to be read, its query to be put together and its rows to be written out; there the
 * bound is 3. What drawing the page adds is printed beside it and held to nothing.
 */
const bounds = { newest: 3, colour: 1.5 };
const count = Number(process.argv[2] ?? 10_000);
const rounds = 80;

await inOwnDatabase(measure);

async function measure({ db }: Database, url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await openDemoStudio(
    db,
    () => startPreparing("only for this bench"),
    async () => {},
  );
  await makeMany(db, 1_000);
  await hangMany(client, count);
  const app = await openApp(db, readConfig({}), console.error);
  const newest = await beside(app, "/tiles", () => newestRows(client));
  const colour = await beside(app, "/tiles?colour=50,0,0", () => nearestRows(client, [50, 0, 0]));
  const kept = [
    say("newest first", newest, bounds.newest),
    say("by colour", colour, bounds.colour),
  ];
  await client.end();
  return kept.every(Boolean);
}

type Times = { bare: number; json: number; html: number };

/** Each by turns, so that what else the machine does falls on all alike; the best of each. */
async function beside(
  app: Hono<Env>,
  path: string,
  bare: () => Promise<{ id: string }[]>,
): Promise<Times> {
  const ids = (await bare()).map(({ id }) => id);
  const { items } = JSON.parse(await ask(app, path, "application/json")) as {
    items: { id: string }[];
  };
  if (items.length !== 60 || items.some(({ id }, place) => id !== ids[place]))
    throw new Error(`${path} and the bare query do not answer the same rows`);
  const times = { bare: [] as number[], json: [] as number[], html: [] as number[] };
  for (let round = -20; round < rounds; round += 1) {
    const took = {
      bare: await milliseconds(bare),
      json: await milliseconds(() => ask(app, path, "application/json")),
      html: await milliseconds(() => ask(app, path, "text/html")),
    };
    if (round < 0) continue;
    for (const kind of ["bare", "json", "html"] as const) times[kind].push(took[kind]);
  }
  return {
    bare: Math.min(...times.bare),
    json: Math.min(...times.json),
    html: Math.min(...times.html),
  };
}

async function ask(app: Hono<Env>, path: string, accept: string): Promise<string> {
  const answer = await app.request(`http://localhost${path}`, { headers: { accept } });
  if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
  return answer.text();
}

function say(what: string, { bare, json, html }: Times, most: number): boolean {
  const ratio = json / bare;
  console.log(
    `${count} tiles, ${what}: bare ${bare.toFixed(2)} ms; JSON ${json.toFixed(2)} ms, ${ratio.toFixed(2)} times (at most ${most}); page ${html.toFixed(2)} ms, ${(html / bare).toFixed(2)} times`,
  );
  return ratio <= most;
}

async function milliseconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
