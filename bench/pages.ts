import { fork, spawn } from "node:child_process";
import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import type { Database } from "../src/db/client.ts";
import type { Given, KeptPage } from "./sheets/bare-server.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { openHeard } from "./sheets/heard.ts";
import { fillLibrary, libraryOf } from "./sheets/library.ts";
import { type Load, load } from "./sheets/load.ts";
import { freePort, stop, untilAnswers } from "./sheets/processes.ts";
import { handOn } from "./sheets/result.ts";

/**
 * The list of the library and the page of a recipe, as visitors ask for them over HTTP, against a
 * server of hono and postgres.js alone that asks the same statements and sends the same bytes: at
 * least half as many requests a second, and the hundredth that takes longest at most 1.5 times as far
 * from the median as there. Each server is a process of its own and eight ask at once; by turns, the
 * best of three rounds. What a page takes that is not the one that the last visitor was sent is told too,
 * and held to nothing.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/pages.ts [recipes, 100000] [requests, 1000]
 */
const [leastRate, mostSpread] = [0.5, 1.5];
const count = Number(process.argv[2] ?? 100_000);
const requests = Number(process.argv[3] ?? 1000);
const [rounds, atOnce] = [3, 8];
const [html, json] = [{ accept: "text/html" }, { accept: "application/json" }];
const anew = { ...html, "cache-control": "no-cache" };
const pages = [
  { what: "list", path: "/recipes", asked: html, isBound: true },
  { what: "list as JSON", path: "/recipes", asked: json, isBound: true },
  { what: "recipe", path: "/recipes/slack-water", asked: html, isBound: true },
  { what: "recipe as JSON", path: "/recipes/slack-water", asked: json, isBound: true },
  { what: "list, made anew each time", path: "/recipes", asked: anew, isBound: false },
  {
    what: "recipe, made anew each time",
    path: "/recipes/slack-water",
    asked: anew,
    isBound: false,
  },
];

await inOwnDatabase(measure, { copyOf: libraryOf(count) });

async function measure({ db }: Database, url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await fillLibrary(db, client, count);
  await client.end();
  const kept = await keepPages(url);
  const [ours, bare] = [await startOurs(url), await startBare({ url, pages: kept })];
  try {
    const addresses = ({ path }: Page) =>
      [ours, bare].map(({ port }) => `http://127.0.0.1:${port}${path}`) as [string, string];
    // Until the engine has compiled what is asked often, which takes some thousand requests.
    for (const page of pages)
      for (const address of addresses(page))
        await load(address, { ...wanted(page), requests: page.isBound ? 4 * requests : 50 });
    const held = [];
    for (const page of pages) held.push(await beside(page, ...addresses(page)));
    return held.every(Boolean);
  } finally {
    await stop(ours.child);
    await stop(bare.child);
  }
}

/** Each page with what it asks for once everything is warm and nothing is left to settle. */
async function keepPages(url: string): Promise<KeptPage[]> {
  const heard = openHeard(url);
  const app = await openApp(heard.db, readConfig({}), { broken: console.error });
  const kept: KeptPage[] = [];
  for (const { what, path, asked } of pages) {
    const ask = async () => app.request(`http://127.0.0.1${path}`, { headers: asked });
    await ask();
    heard.take();
    const answer = await ask();
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
    const body = await answer.text();
    const statements = heard.take();
    console.log(`${what}: ${statements.length} statements, ${body.length} characters`);
    kept.push({ path, asked, headers: Object.fromEntries(answer.headers), body, statements });
  }
  await heard.close();
  return kept;
}

async function startOurs(url: string) {
  const port = await freePort();
  const child = spawn(process.execPath, ["--import", "tsx", "src/main.ts"], {
    env: {
      ...process.env,
      ...{ NODE_ENV: "production", DATABASE_URL: url, HOST: "127.0.0.1", PORT: `${port}` },
    },
    stdio: ["ignore", "ignore", "inherit"],
  });
  await untilAnswers(`http://127.0.0.1:${port}/healthz`, child);
  return { port, child };
}

async function startBare(given: Omit<Given, "port">) {
  const port = await freePort();
  const child = fork(new URL("sheets/bare-server.ts", import.meta.url), {
    execArgv: ["--import", "tsx"],
    env: { ...process.env, NODE_ENV: "production" },
  });
  child.send({ ...given, port } satisfies Given);
  await untilAnswers(`http://127.0.0.1:${port}/ready`, child);
  return { port, child };
}

type Page = (typeof pages)[number];

function wanted({ asked, isBound }: Page) {
  return { headers: asked, requests: isBound ? requests : Math.ceil(requests / 5), atOnce };
}

async function beside(page: Page, ours: string, bare: string): Promise<boolean> {
  const { what, isBound } = page;
  const ask = (url: string) => load(url, wanted(page));
  const [here, there]: [Load[], Load[]] = [[], []];
  for (let round = 0; round < rounds; round += 1) {
    there.push(await ask(bare));
    here.push(await ask(ours));
  }
  const size = `${count} recipes, ${atOnce} at once`;
  const rates = [here, there].map((loads) => Math.max(...loads.map((each) => each.perSecond)));
  const spreads = [here, there].map((loads) =>
    Math.min(...loads.map(({ p99, median }) => p99 / median)),
  );
  const quickest = [here, there].map((loads) => Math.min(...loads.map(({ median }) => median)));
  const [rate = 0, bareRate = 0] = rates;
  const [spread = 0, bareSpread = 0] = spreads;
  const held = [
    handOn(
      {
        ...{
          what: `requests a second, ${what}`,
          against: "a bare server of the same SQL and bytes",
        },
        ...{ size, ratio: rate / bareRate, ...(isBound && { bound: { least: leastRate } }) },
      },
      `${rate.toFixed(0)} a second beside ${bareRate.toFixed(0)}, medians ${quickest.map((each) => each.toFixed(1)).join(" and ")} ms`,
    ),
    handOn(
      {
        ...{ what: `p99 over median, ${what}`, against: "the same of that bare server" },
        ...{ size, ratio: spread / bareSpread, ...(isBound && { bound: { most: mostSpread } }) },
      },
      `${spread.toFixed(2)} beside ${bareSpread.toFixed(2)}`,
    ),
  ];
  return held.every(Boolean);
}
