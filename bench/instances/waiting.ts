import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { setTimeout as wait } from "node:timers/promises";

/** A port of this machine that nobody listens at. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  server.close();
  await once(server, "close");
  if (address === null || typeof address === "string") throw new Error("no port is free");
  return address.port;
}

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

export async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode === null && child.signalCode === null) await once(child, "exit");
}
