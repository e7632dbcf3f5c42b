import type { Hono } from "hono";
import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import { openPostgres } from "../src/db/postgres.ts";
import { makeMany } from "../src/demo/making-many.ts";
import { startPreparing } from "../src/demo/preparing.ts";
import { openDemoStudio } from "../src/demo/studio.ts";
import type { Env } from "../src/wire/context.ts";
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
const server = process.env.TEST_DATABASE_URL;

if (!server) {
  console.log("left out: set TEST_DATABASE_URL to a Postgres where a database can be made");
} else {
  process.exitCode = await measure(server);
}

async function measure(serverUrl: string): Promise<number> {
  const name = `bucket_bench_${process.pid}`;
  const admin = postgres(serverUrl, { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)}`;
  const url = new URL(serverUrl);
  url.pathname = `/${name}`;
  const database = await openPostgres(url.href);
  const client = postgres(url.href, { max: 1, onnotice: () => {} });
  try {
    const { db } = database;
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
    return kept.every(Boolean) ? 0 : 1;
  } finally {
    await client.end();
    await database.close();
    await admin`drop database ${admin(name)} with (force)`;
    await admin.end();
  }
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
