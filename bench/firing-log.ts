import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import postgres from "postgres";
import { v7 as uuidv7 } from "uuid";
import { openApp } from "../src/app.ts";
import { openAuth } from "../src/auth.ts";
import { readConfig } from "../src/config.ts";
import type { Database, Db } from "../src/db/client.ts";
import { addFiring } from "../src/db/firing-adding.ts";
import { addKiln } from "../src/db/kilns.ts";
import { people } from "../src/db/schema/index.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { handOn } from "./sheets/result.ts";

/**
 * A firing of a million readings sent through the app as CSV, in pieces, and its page drawn, against
 * splitting the same CSV and copying the bare pairs into a table: at most twice as long. From before
 * the first to after the second such firing the process grows by at most 150 MB.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/firing-log.ts
 */
const bound = 2;
const boundMb = 150;
const count = 1_000_000;
const origin = "http://localhost";

await inOwnDatabase(measure);

async function measure({ db }: Database, url: string): Promise<boolean> {
  const by = await putManager(db);
  const app = await openApp(db, readConfig({}), { broken: console.error });
  const cookie = await openAuth(false).start(db, {
    personId: by,
    browser: "bench",
    at: new Date(),
  });
  const headers = { cookie: cookie.split(";")[0] ?? "", "content-type": "text/csv" };
  const path = await putFiring(db, by);
  const upload = async (csv: readonly Uint8Array[]) => {
    const sent = await app.request(`${origin}${path}/readings`, {
      method: "POST",
      headers: { ...headers, accept: "application/json" },
      body: streamOf(csv),
      duplex: "half",
    } as RequestInit);
    if (sent.status !== 201) throw new Error(await sent.text());
    const page = await app.request(`${origin}${path}`, { headers: { cookie: headers.cookie } });
    const html = await page.text();
    if (!html.includes("1,000,000 readings")) throw new Error("the page tells of no million");
  };

  const [first, second] = [piecesOf(0), piecesOf(1)];
  await app.request(`${origin}${path}`);
  collectGarbage();
  const growth = watchGrowth(process.memoryUsage.rss());
  await upload(first);
  const ours = await seconds(() => upload(second));
  const grownMb = growth.end();

  const client = postgres(url, { max: 1, onnotice: () => {} });
  await client`create table bare (minutes real, celsius real)`;
  await copyBare(client, first);
  const bare = await seconds(() => copyBare(client, second));
  await client.end();
  const size = `${count} readings`;
  const held = [
    handOn(
      {
        ...{ what: "a firing's readings kept and drawn", against: "split and copied bare" },
        ...{ size, ratio: ours / bare, bound: { most: bound } },
      },
      `${ours.toFixed(2)} s beside ${bare.toFixed(2)}`,
    ),
    handOn(
      {
        ...{ what: "memory while they are taken in, MB", against: "the same process when idle" },
        ...{ size, ratio: grownMb, bound: { most: boundMb } },
      },
      `${grownMb.toFixed(0)} MB over idle`,
    ),
  ];
  return held.every(Boolean);
}

async function putManager(db: Db): Promise<string> {
  const id = uuidv7();
  await db.insert(people).values({
    id,
    name: "Ines Okafor",
    nameKey: "ines okafor",
    email: "ines@saltmarsh.example",
    emailKey: "ines@saltmarsh.example",
    passwordHash: `$argon2id$v=19$m=19456,t=2,p=1$${"A".repeat(22)}$${"A".repeat(43)}`,
    role: "manager",
    joinedAt: new Date("2026-01-05T09:00:00Z"),
  });
  return id;
}

async function putFiring(db: Db, by: string): Promise<string> {
  const at = new Date("2026-09-01T08:00:00Z");
  const kiln = await addKiln(db, { name: "Bench", about: "", by, at });
  if (kiln.kind !== "added") throw new Error(kiln.kind);
  const fired = { kind: "oxidation", cone: "6", startedAt: at, remark: "" } as const;
  const programme = [{ celsiusPerHour: 60, toCelsius: 1222, holdMinutes: 0 }];
  const id = await addFiring(db, {
    kilnId: kiln.id,
    ...fired,
    programme,
    witness: [{ cone: "6", bendDegrees: 90, place: "" }],
    by,
    at,
  });
  return `/firings/${id}`;
}

/** The CSV in pieces of 64 kB, as they come off a wire: ten readings a second. */
function piecesOf(run: number): Uint8Array[] {
  const encoder = new TextEncoder();
  const pieces: Uint8Array[] = [];
  let text = "minutes,celsius\n";
  for (let at = 0; at < count; at++) {
    const minutes = at / 600;
    const climbed = Math.min(20 + minutes, 1222 - Math.max(0, minutes - 1210) * 2);
    text += `${minutes.toFixed(4)},${(climbed + ((at * 7 + run) % 11) / 10).toFixed(1)}\n`;
    if (text.length < 65_536 && at < count - 1) continue;
    pieces.push(encoder.encode(text));
    text = "";
  }
  return pieces;
}

function streamOf(pieces: readonly Uint8Array[]): ReadableStream<Uint8Array> {
  let next = 0;
  return new ReadableStream({
    pull(to) {
      const piece = pieces[next++];
      if (piece) to.enqueue(piece);
      else to.close();
    },
  });
}

/** Splits each line at its comma, reads both numbers, and copies them in. */
async function copyBare(client: postgres.Sql, pieces: readonly Uint8Array[]): Promise<void> {
  const copy = await client`copy bare (minutes, celsius) from stdin`.writable();
  const done = new Promise<void>((resolve, reject) => {
    copy.on("finish", resolve);
    copy.on("error", reject);
  });
  const decoder = new TextDecoder();
  let rest = "";
  for (const piece of pieces) {
    const lines = (rest + decoder.decode(piece, { stream: true })).split("\n");
    rest = lines.pop() ?? "";
    const rows: string[] = [];
    for (const line of lines) {
      const [minutes, celsius] = line.split(",").map(Number);
      if (!Number.isNaN(minutes)) rows.push(`${minutes}\t${celsius}\n`);
    }
    if (!copy.write(rows.join(""))) await new Promise((resolve) => copy.once("drain", resolve));
  }
  copy.end();
  await done;
}

/** What making the CSV left behind is no part of what the process holds when idle. */
function collectGarbage(): void {
  setFlagsFromString("--expose-gc");
  runInNewContext("gc")();
}

/** The most that the process holds over `idle` until it is ended, in MB. */
function watchGrowth(idle: number) {
  let most = idle;
  const look = () => {
    most = Math.max(most, process.memoryUsage.rss());
  };
  const timer = setInterval(look, 5);
  return {
    end: () => {
      look();
      clearInterval(timer);
      return (most - idle) / 1024 / 1024;
    },
  };
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}
