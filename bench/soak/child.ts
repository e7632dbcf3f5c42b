import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import type { Memory, Told } from "./server.ts";

export type Child = {
  url: string;
  /** The token that the first manager joins with. */
  invite: string;
  /** What it holds once its garbage is collected, bytes. */
  memory: () => Promise<Memory>;
  /** Stops it as a machine would. @returns what it wrote beside its own log. */
  stop: () => Promise<{ code: number | null; errors: string }>;
};

/** Starts the server of a soak in a process of its own, with what the environment should say. */
export async function startChild(environment: Record<string, string>): Promise<Child> {
  const file = fileURLToPath(new URL("server.ts", import.meta.url));
  const child = spawn(process.execPath, ["--expose-gc", "--import", "tsx", file], {
    env: { ...process.env, HOST: "127.0.0.1", LOG_LEVEL: "error", ...environment },
    stdio: ["ignore", "pipe", "pipe", "ipc"],
  });
  let errors = "";
  const keep = (piece: Buffer) => {
    errors = (errors + piece).slice(-8_000);
  };
  child.stdout?.on("data", keep);
  child.stderr?.on("data", keep);
  const ended = once(child, "exit").then(() => {
    if (child.exitCode !== 0) throw new Error(`the server ended by itself: ${errors}`);
  });
  ended.catch(() => {});
  const { url, invite } = await told(child, "serving", ended);
  return {
    url,
    invite,
    async memory() {
      const answer = told(child, "memory", ended);
      child.send("memory");
      const { heap, resident } = await answer;
      return { heap, resident };
    },
    async stop() {
      if (child.exitCode === null && child.signalCode === null) {
        const exit = once(child, "exit");
        child.kill("SIGTERM");
        await exit;
      }
      return { code: child.exitCode, errors };
    },
  };
}

type Telling<K> = Extract<Told, { kind: K }>;

/** The next message of that kind, unless the process ends before. */
async function told<K extends Told["kind"]>(
  child: ChildProcess,
  kind: K,
  ended: Promise<void>,
): Promise<Telling<K>> {
  let hear: (message: unknown) => void = () => {};
  const message = new Promise<Telling<K>>((resolve) => {
    hear = (heard) => {
      if ((heard as Told).kind === kind) resolve(heard as Telling<K>);
    };
    child.on("message", hear);
  });
  const first = await Promise.race([message, ended]);
  child.off("message", hear);
  if (!first) throw new Error("the server ended before it answered");
  return first;
}
