import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as later } from "node:timers/promises";
import { openDatabase } from "../src/db/client.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { act, Gate, roleAt } from "./soak/acting.ts";
import type { World } from "./soak/actor.ts";
import { checkAsked } from "./soak/checks-asked.ts";
import { checkKept } from "./soak/checks-kept.ts";
import { startChild } from "./soak/child.ts";
import { Ledger } from "./soak/ledger.ts";
import { inviteFor, openStudio } from "./soak/opening.ts";
import { Person } from "./soak/person.ts";
import { compareMemory, type Sample, sayResult } from "./soak/result.ts";
import { Traffic } from "./soak/traffic.ts";

/**
 * A studio at work: a server in a process of its own, and people who do all that people do there,
 * over HTTP and at once, with their mistakes. At the end nothing that was acknowledged may be lost,
 * nothing may have broken, and the server may hold no more memory than it did after a third of the
 * time.
 *
 *     TEST_DATABASE_URL=postgres://… npm run soak -- minutes=10 actors=50 [seed=1] [port=0]
 *
 * Without TEST_DATABASE_URL, or with engine=embedded, it soaks the embedded engine.
 */
const given = Object.fromEntries(process.argv.slice(2).map((each) => each.split("=", 2)));
const minutes = Number(given.minutes ?? 10);
const actors = Number(given.actors ?? 50);
const seed = Number(given.seed ?? 1);
const port = String(given.port ?? 0);

if (given.engine === "embedded" || !process.env.TEST_DATABASE_URL) {
  const folder = await mkdtemp(join(tmpdir(), "bucket-soak-"));
  try {
    process.exitCode = (await soak({ DATA_DIR: folder, DATABASE_URL: "" })) ? 0 : 1;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
} else await inOwnDatabase((_, url) => soak({ DATABASE_URL: url }));

async function soak(where: Record<string, string>): Promise<boolean> {
  const traffic = new Traffic();
  const ledger = new Ledger();
  const server = await startChild({ ...where, PORT: port, TRUSTED_PROXIES: "127.0.0.1" });
  const people = Array.from(
    { length: actors },
    (_, place) => new Person(server.url, place, traffic),
  );
  const [manager] = people;
  if (!manager || actors < 3) throw new Error("a soak takes three actors or more");
  const { invite } = server;
  const standing = await openStudio(manager, { invite, actors, ledger });
  const shared = { invites: [], firings: [], objections: [], exportedAt: 0, people: 0 };
  const world: World = { ledger, traffic, standing, ...shared };
  await joinAll(people);

  const began = performance.now();
  const span = minutes * 60_000;
  const gate = new Gate();
  const until = began + span;
  const acting = people.map((person, place) => act(person, { place, world, gate, until, seed }));
  const samples: Sample[] = [];
  for (const share of [1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6]) {
    await later(Math.max(0, began + share * span - performance.now()));
    samples.push({ share, ...(await gate.held(server.memory)) });
  }
  await Promise.all(acting);
  samples.push({ share: 1, ...(await server.memory()) });
  const seconds = (performance.now() - began) / 1000;
  const asked = traffic.asked;

  await checkAsked(manager, world);
  const { code, errors } = await server.stop();
  if (code !== 0 || errors !== "")
    traffic.fault(`the server ended with ${code}, and wrote: ${errors.slice(-4_000)}`);
  const config = {
    databaseUrl: where.DATABASE_URL,
    migrateUrl: undefined,
    dataDir: where.DATA_DIR ?? "",
  };
  const kept = await openDatabase(config);
  const lines = await checkKept(kept.db, world).finally(kept.close);
  const memory = compareMemory(samples);
  return sayResult({
    minutes,
    actors,
    engine: kept.engine,
    seconds,
    asked,
    traffic,
    memory,
    lines,
  });
}

/** Everybody but the newcomers belongs to the studio before the time begins. */
async function joinAll([manager, ...others]: readonly Person[]): Promise<void> {
  for (const [before, person] of others.entries()) {
    const role = roleAt(before + 1);
    if (role === "newcomer" || !manager) continue;
    const link = await inviteFor(manager, role);
    if (!link || !(await person.join(link, `Potter ${before + 1}`, role)))
      throw new Error(`nobody could join: ${manager.traffic.faults.join("; ")}`);
  }
}
