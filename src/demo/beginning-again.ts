import { access, readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { lockFolder } from "../db/folder-lock.ts";
import { passwordFile } from "./password.ts";

/** What the embedded database and the demo put into their folder; anything else there stays. */
const ours = ["pg", "engine-version", "unfinished", passwordFile];

/**
 * Whether the last start was killed between its first page and the last of what follows. It cannot be
 * gone on with, since what it knew is gone with it.
 */
export const isUnfinished = (folder: string): Promise<boolean> =>
  access(join(folder, "unfinished")).then(
    () => true,
    () => false,
  );

export const markUnfinished = (folder: string): Promise<void> =>
  writeFile(join(folder, "unfinished"), "The demo's studio is being made. Begin again.\n");

export const markFinished = (folder: string): Promise<void> =>
  rm(join(folder, "unfinished"), { force: true });

/**
 * Takes the demo's database out of its folder, so that the next start makes the studio anew. A
 * folder that does not exist or is empty is as new already.
 *
 * @throws a sentence where the folder is not a demo's, or a process has it open.
 */
export async function beginAgain(folder: string): Promise<void> {
  const entries = await readdir(folder).catch(() => []);
  if (entries.length === 0) return;
  const marked = await access(join(folder, passwordFile)).then(
    () => true,
    () => false,
  );
  if (!marked) {
    throw new Error(
      `${folder} was not made by the demo, so nothing in it was deleted. Leave --fresh out, or set DATA_DIR to the demo's folder.`,
    );
  }
  const unlock = await lockFolder(folder);
  for (const entry of ours) await rm(join(folder, entry), { recursive: true, force: true });
  await unlock();
}
