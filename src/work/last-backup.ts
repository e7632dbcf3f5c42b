import { stat } from "node:fs/promises";
import { join } from "node:path";
import { listBackups } from "./backing-up.ts";
import { holdsSecrets } from "./restoring.ts";

export type LastBackup = {
  name: string;
  at: Date;
  bytes: number;
  /** Whether its list of files is there, at its end, with every file that it names. */
  whole: boolean;
};

/**
 * The newest backup of a folder, looked at from its end: a restore reads it from end to end.
 *
 * @returns undefined where there is none.
 */
export async function findLastBackup(folder: string): Promise<LastBackup | undefined> {
  const [newest] = await listBackups(folder);
  if (!newest) return undefined;
  const path = join(folder, newest.name);
  const whole = await holdsSecrets({ path }).catch(() => false);
  const { size } = await stat(path);
  return { ...newest, bytes: size, whole };
}
