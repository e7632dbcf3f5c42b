import { access, readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { lockFolder } from "../db/folder-lock.ts";
import { passwordFile } from "./password.ts";

/** What the embedded database and the demo put into their folder; anything else there stays. */
const ours = ["pg", "engine-version", passwordFile];

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
