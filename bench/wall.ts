import type { Hono } from "hono";
import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import type { Database } from "../src/db/client.ts";
import { makeMany } from "../src/demo/making-many.ts";
import type { Env } from "../src/wire/context.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { fillDemo } from "./sheets/library.ts";
import { handOn } from "./sheets/result.ts";
import { hangMany, nearestRows, newestRows } from "./sheets/wall.ts";

/**
 * The first page of the wall of ten thousand tiles with a picture and a colour each, asked of the
 * whole app, against the bare query of the same rows with the same joins through the same driver.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/wall.ts [tiles, 10000]
 *
 * The bound is on the JSON: it takes at most 1.5 times as long as the bare query, sent as its text.
 * Newest first, planning takes Postgres as long as carrying out, and the app's query is prepared
 * where the bare one is not. So what the bare one takes where it is prepared as well is printed
 * beside it, and so is what drawing the page adds; neither is held to anything.
 */
const most = 1.5;
const count = Number(process.argv[2] ?? 10_000);
const rounds = 80;
const kinds = ["bare", "prepared", "json", "html"] as const;

await inOwnDatabase(measure);

async function measure({ db }: Database, url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await fillDemo(db);
  await makeMany(db, 1_000);
  await hangMany(client, count);
  const app = await openApp(db, readConfig({}), { broken: console.error });
  const newest = await beside(app, "/tiles", (how) => newestRows(client, how));
  const colour = await beside(app, "/tiles?colour=50,0,0", (how) =>
    nearestRows(client, [50, 0, 0], how),
  );
  const kept = [say("newest first", newest), say("by colour", colour)];
  await client.end();
  return kept.every(Boolean);
}

type Times = Record<(typeof kinds)[number], number>;

/** Each by turns, so that what else the machine does falls on all alike; the best of each. */
async function beside(
  app: Hono<Env>,
  path: string,
  bare: (how: { prepare: boolean }) => Promise<{ id: string }[]>,
): Promise<Times> {
  const ids = (await bare({ prepare: false })).map(({ id }) => id);
  const { items } = JSON.parse(await ask(app, path, "application/json")) as {
    items: { id: string }[];
  };
  if (items.length !== 60 || items.some(({ id }, place) => id !== ids[place]))
    throw new Error(`${path} and the bare query do not answer the same rows`);
  const ways: Record<keyof Times, () => Promise<unknown>> = {
    bare: () => bare({ prepare: false }),
    prepared: () => bare({ prepare: true }),
    json: () => ask(app, path, "application/json"),
    html: () => ask(app, path, "text/html"),
  };
  const best: Times = { bare: Infinity, prepared: Infinity, json: Infinity, html: Infinity };
  for (let round = -20; round < rounds; round += 1) {
    for (const kind of kinds) {
      const took = await milliseconds(ways[kind]);
      if (round >= 0) best[kind] = Math.min(best[kind], took);
    }
  }
  return best;
}

async function ask(app: Hono<Env>, path: string, accept: string): Promise<string> {
  const answer = await app.request(`http://localhost${path}`, { headers: { accept } });
  if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
  return answer.text();
}

function say(what: string, { bare, prepared, json, html }: Times): boolean {
  const told = (took: number) => `${took.toFixed(2)} ms, ${(took / bare).toFixed(2)} times`;
  return handOn(
    {
      ...{ what: `the wall as JSON, ${what}`, against: "the bare query of the same rows" },
      ...{ size: `${count} tiles`, ratio: json / bare, bound: { most } },
    },
    `bare ${bare.toFixed(2)} ms, JSON ${told(json)}, page ${told(html)}; bare and prepared ${prepared.toFixed(2)} ms, and the JSON ${(json / prepared).toFixed(2)} times that`,
  );
}

async function milliseconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
