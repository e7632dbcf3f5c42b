import { createWriteStream } from "node:fs";
import { mkdir, open, readdir, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import { setTimeout as wait } from "node:timers/promises";
import type { Db } from "../db/client.ts";
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

/** Between two of them, and how often is looked whether one is due. */
const everyMs = 24 * 60 * 60 * 1000;
const lookMs = 10 * 60 * 1000;

/** Backs up where the newest in the folder is a day old. @returns the path of one that was made. */
export async function backUpIfDue(db: Db, folder: string, now: Date): Promise<string | undefined> {
  const [newest] = await listBackups(folder);
  if (newest && now.getTime() - newest.at.getTime() < everyMs) return undefined;
  return backUp(db, folder, now);
}

/** Backs up once a day, beside the requests, until it is told to end. */
export async function keepBackingUp(
  db: Db,
  folder: string,
  { signal }: { signal: AbortSignal },
): Promise<void> {
  while (!signal.aborted) {
    await backUpIfDue(db, folder, new Date()).catch((error) =>
      console.error(`No backup could be written into ${folder}: ${error}`),
    );
    await wait(lookMs, undefined, { signal }).catch(() => {});
  }
}
