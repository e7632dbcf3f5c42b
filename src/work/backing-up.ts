import { createWriteStream } from "node:fs";
import { mkdir, open, readdir, rename, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import { setTimeout as wait } from "node:timers/promises";
import type { Database, Db } from "../db/client.ts";
import { inTurn } from "../db/in-turn.ts";
import { mayGo } from "./backup-rule.ts";
import { exportLibrary } from "./exporting.ts";

const named = /^bucket-(\d{4}-\d\d-\d\dT\d\d)-(\d\d)-(\d\d)\.(\d{3})Z\.zip$/;

/** Its moment is in its name, so that a folder of them is in order; a colon cannot stand in every file's. */
export const nameOf = (at: Date): string => `bucket-${at.toISOString().replaceAll(":", "-")}.zip`;

const momentOf = (name: string): Date | undefined => {
  const [, hour, minute, second, rest] = named.exec(name) ?? [];
  return hour === undefined ? undefined : new Date(`${hour}:${minute}:${second}.${rest}Z`);
};

/** The backups in a folder, newest first; none where there is no such folder yet. */
export async function listBackups(folder: string): Promise<{ name: string; at: Date }[]> {
  const names = await readdir(folder).catch((error) => {
    if (error.code === "ENOENT") return [];
    throw error;
  });
  return names
    .flatMap((name) => {
      const at = momentOf(name);
      return at ? [{ name, at }] : [];
    })
    .sort((one, other) => other.at.getTime() - one.at.getTime());
}

/**
 * Writes a backup of everything into a folder, passwords and links included, while the studio goes
 * on, and takes away those that may go by the rule. A backup that breaks off leaves nothing that
 * could be taken for one.
 *
 * @returns the file's path.
 */
export async function backUp(db: Db, folder: string, now: Date): Promise<string> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, nameOf(now));
  const under = `${path}.part`;
  try {
    const zip = await exportLibrary(db, { at: now, secrets: true });
    await pipeline(zip, createWriteStream(under, { mode: 0o600 }));
    await flush(under);
    await rename(under, path);
  } catch (error) {
    await rm(under, { force: true });
    throw error;
  }
  const backups = await listBackups(folder);
  const going = mayGo(
    backups.map(({ at }) => at),
    now,
  );
  for (const at of going) await rm(join(folder, nameOf(at)), { force: true });
  return path;
}

/** On the disk before it counts as there. */
async function flush(path: string): Promise<void> {
  const file = await open(path, "r+");
  await file.sync();
  await file.close();
}

/** Between two of them, how often is looked whether one is due, and whether another has done it. */
const everyMs = 24 * 60 * 60 * 1000;
const lookMs = 10 * 60 * 1000;
const againMs = 20 * 1000;

/** What no backup has written to for so long was left by one that was killed. */
const abandonedMs = 60 * 60 * 1000;

/** Backs up where the newest in the folder is a day old. @returns the path of one that was made. */
export async function backUpIfDue(db: Db, folder: string, now: Date): Promise<string | undefined> {
  const [newest] = await listBackups(folder);
  if (newest && now.getTime() - newest.at.getTime() < everyMs) return undefined;
  return backUp(db, folder, now);
}

type Turn = { kind: "done"; path: string | undefined } | { kind: "another is at it" };

/**
 * Backs up where it is due, one instance at a time: of two that share a folder, only one does. The
 * database holds the turn, so that one that was killed has lost it.
 */
export async function backUpInTurn(
  database: Pick<Database, "db" | "engine">,
  folder: string,
  now: Date,
): Promise<Turn> {
  const turn = await inTurn(database, "backing up", async () => {
    await removeAbandoned(folder, now);
    return { path: await backUpIfDue(database.db, folder, now) };
  });
  return turn ? { kind: "done", ...turn } : { kind: "another is at it" };
}

async function removeAbandoned(folder: string, now: Date): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names.filter((each) => named.test(each.replace(/\.part$/, "")))) {
    if (!name.endsWith(".part")) continue;
    const path = join(folder, name);
    const { mtimeMs } = await stat(path);
    if (now.getTime() - mtimeMs > abandonedMs) await rm(path, { force: true });
  }
}

/** Backs up once a day, beside the requests, until it is told to end. */
export async function keepBackingUp(
  database: Pick<Database, "db" | "engine">,
  folder: string,
  { signal }: { signal: AbortSignal },
): Promise<void> {
  while (!signal.aborted) {
    const turn = await backUpInTurn(database, folder, new Date()).catch((error) =>
      console.error(`No backup could be written into ${folder}: ${error}`),
    );
    const pause = turn?.kind === "another is at it" ? againMs : lookMs;
    await wait(pause, undefined, { signal }).catch(() => {});
  }
}
