import postgres from "postgres";
import { openApp } from "../src/app.ts";
import { openAuth } from "../src/auth.ts";
import { readConfig } from "../src/config.ts";
import type { Database, Db } from "../src/db/client.ts";
import { findByEmail } from "../src/db/people.ts";
import type { SlowQuery } from "../src/db/slow-queries.ts";
import { emailOf } from "../src/demo/people.ts";
import type { Ask } from "../tests/browser/asking.ts";
import { findRecords } from "../tests/browser/found.ts";
import { pagesOf, type Reader, readers } from "../tests/browser/page-list.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { repeatEvents } from "./sheets/events.ts";
import { openTimed } from "./sheets/heard.ts";
import { fillLibrary, libraryOf } from "./sheets/library.ts";

/**
 * How long each page of the studio takes in a large one: of a few requests the median, with how many
 * statements it asks and the slowest of them. It holds nothing to a bound; read it from the top, where
 * the slowest pages are. Words behind the sizes leave only the pages whose address has one of them, and
 * tell the slowest statement whole.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/profile.ts \
 *       [recipes, 100000] [events, 1000000] [words…]
 */
const recipes = Number(process.argv[2] ?? 100_000);
const events = Number(process.argv[3] ?? 1_000_000);
const words = process.argv.slice(4);
const requests = 3;

/** Beside the page of each call, the ways to ask it that cost most. */
const further: readonly { who: Reader; at: string }[] = [
  ...[
    "/recipes?q=whiting",
    "/recipes?q=plovver",
    "/recipes?cone=6&use=functional",
    "/recipes?standing=approved",
    "/recipes?surface=crystal",
    "/recipes?without=whiting&least.SiO2=3",
    "/recipes?colour=green",
    "/recipes?colour=green&q=whiting",
    "/tiles?colour=50,0,0",
    "/tiles?q=whiting",
    "/start?making=tile",
  ].map((at) => ({ who: "visitor" as const, at })),
  ...["/recipes", "/recipes?stocked=on", "/tiles", "/start?making=mug-or-bowl"].map((at) => ({
    who: "member" as const,
    at,
  })),
  ...["/recipes", "/events?subject=recipe", "/events?kind=published&by=program"].map((at) => ({
    who: "manager" as const,
    at,
  })),
];

type Row = { who: Reader; at: string; status: number; median: number; asked: SlowQuery[] };

await inOwnDatabase(measure, { copyOf: libraryOf(recipes) });

async function measure({ db }: Database, url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await fillLibrary(db, client, recipes);
  await repeatEvents(client, events);
  await client.end();
  let asked: SlowQuery[] = [];
  const watched = openTimed(url, (each) => asked.push(each));
  const app = await openApp(watched.db, readConfig({}), { broken: console.error });
  const cookies = await signIn(watched.db);
  const open = async (who: Reader, at: string, init: RequestInit = {}) => {
    const headers = { ...init.headers, cookie: cookies[who] };
    const answer = await app.request(`http://localhost${at}`, { ...init, headers });
    return { status: answer.status, text: await answer.text() };
  };
  const found = await findRecords(asManager(open));
  const visits = [...Object.values(pagesOf(found)).flat(), ...further].filter(
    ({ at, ...visit }) =>
      !("sent" in visit) && (words.length === 0 || words.some((word) => at.includes(word))),
  );
  const rows: Row[] = [];
  for (const { who, at } of visits) {
    const ask = () => open(who, at, { headers: { accept: "text/html" } });
    const took: number[] = [];
    await ask();
    let status = 0;
    for (let request = 0; request < requests; request += 1) {
      asked = [];
      const start = performance.now();
      ({ status } = await ask());
      took.push(performance.now() - start);
    }
    const median = took.sort((a, b) => a - b)[Math.floor(requests / 2)] ?? Number.NaN;
    rows.push({ who, at, status, median, asked: [...asked] });
  }
  await watched.close();
  for (const line of table(rows)) console.log(line);
  return true;
}

async function signIn(db: Db): Promise<Record<Reader, string>> {
  const cookies: Record<Reader, string> = { visitor: "", member: "", manager: "" };
  for (const who of ["member", "manager"] as const) {
    const person = await findByEmail(db, emailOf(readers[who]));
    if (!person) throw new Error(`${who} does not belong to the studio`);
    const session = { personId: person.id, browser: "bench", at: new Date() };
    cookies[who] = (await openAuth(false).start(db, session)).split(";")[0] ?? "";
  }
  return cookies;
}

type Open = (
  who: Reader,
  at: string,
  init?: RequestInit,
) => Promise<{ status: number; text: string }>;

function asManager(open: Open): Ask {
  return async <Answer>(path: string, data?: object): Promise<Answer> => {
    const { status, text } = await open("manager", path, {
      method: data ? "POST" : "GET",
      headers: { accept: "application/json", "content-type": "application/json" },
      ...(data && { body: JSON.stringify(data) }),
    });
    if (status >= 400) throw new Error(`${path}: ${text}`);
    return JSON.parse(text) as Answer;
  };
}

function table(rows: readonly Row[]): string[] {
  const slowestFirst = rows.toSorted((one, other) => other.median - one.median);
  return slowestFirst.map(({ who, at, status, median, asked }) => {
    const [slowest] = asked.toSorted((one, other) => other.milliseconds - one.milliseconds);
    const page = `${who} ${at}${status === 200 ? "" : ` (${status})`}`.padEnd(64);
    const took = `${median.toFixed(0).padStart(6)} ms, ${String(asked.length).padStart(3)} statements`;
    const query = slowest && (words.length > 0 ? slowest.query : inShort(slowest.query));
    return `${page} ${took}, slowest ${slowest?.milliseconds.toFixed(0) ?? 0} ms: ${query ?? ""}`;
  });
}

/** From what it reads on, since what it answers says little. */
function inShort(query: string): string {
  return query
    .replace(/\s+/g, " ")
    .replace(/^(with|select)\b.*? from /, "$1 … from ")
    .slice(0, 120);
}
