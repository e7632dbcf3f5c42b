import { readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";

/**
 * Takes the folder for this process, since two on one embedded database corrupt it. The lock of a
 * process that is gone is taken over.
 *
 * @returns gives the folder free again.
 * @throws a sentence naming the process that has it.
 */
export async function lockFolder(folder: string): Promise<() => Promise<void>> {
  const lock = join(folder, "in-use-by");
  const take = () => writeFile(lock, `${process.pid}\n`, { flag: "wx" });
  try {
    await take();
  } catch {
    const holder = Number((await readFile(lock, "utf8").catch(() => "")).trim());
    if (isRunning(holder)) {
      throw new Error(
        `${folder} is in use by process ${holder}. Stop it first, or set DATA_DIR to another folder. ` +
          `If that process is not Common Bucket, delete ${lock}.`,
      );
    }
    await rm(lock, { force: true });
    await take();
  }
  return () => rm(lock, { force: true });
}

/** In a container the one process is often number 1 before and after, so our own number never blocks us. */
function isRunning(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0 || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
