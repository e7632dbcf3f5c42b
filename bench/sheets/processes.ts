import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { until } from "./waiting.ts";

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

/** Once a page of a process answers; throws where the process ends before, or it takes a minute. */
export async function untilAnswers(page: string, child: ChildProcess): Promise<void> {
  await until(`${page} answers`, async () => {
    if (child.exitCode !== null) throw new Error(`ended before ${page} answered`);
    return answers(page);
  });
}

const answers = (page: string): Promise<boolean> =>
  fetch(page).then(
    (answer) => answer.status === 200,
    () => false,
  );

export async function stop(child: ChildProcess): Promise<void> {
  child.kill("SIGTERM");
  await ended(child);
}

export async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode === null && child.signalCode === null) await once(child, "exit");
}
