import { setTimeout as wait } from "node:timers/promises";

/**
 * Waits until something holds, and answers how many seconds that took.
 *
 * @throws what did not come about, where it does not within so many seconds.
 */
export async function until(
  what: string,
  holds: () => Promise<boolean>,
  seconds = 60,
): Promise<number> {
  const start = performance.now();
  const passed = () => (performance.now() - start) / 1000;
  while (!(await holds())) {
    if (passed() > seconds) throw new Error(`${what}: not within ${seconds} s`);
    await wait(50);
  }
  return passed();
}
