import { setTimeout as later } from "node:timers/promises";

/** Asks until it is so, for at most so many seconds. @returns whether it came to be, and after how long. */
export async function waited(
  isSo: () => boolean | Promise<boolean>,
  mostSeconds: number,
): Promise<{ came: boolean; seconds: number }> {
  const start = performance.now();
  const gone = () => (performance.now() - start) / 1000;
  while (!(await isSo())) {
    if (gone() > mostSeconds) return { came: false, seconds: gone() };
    await later(20);
  }
  return { came: true, seconds: gone() };
}

/** Waits until it is so. @returns after how many seconds. @throws what did not come about in time. */
export async function until(
  what: string,
  isSo: () => boolean | Promise<boolean>,
  mostSeconds = 60,
): Promise<number> {
  const { came, seconds } = await waited(isSo, mostSeconds);
  if (!came) throw new Error(`${what}: not within ${mostSeconds} s`);
  return seconds;
}
