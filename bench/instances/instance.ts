import { spawn } from "node:child_process";
import { join } from "node:path";
import { ended, freePort } from "../sheets/processes.ts";
import { until } from "./waiting.ts";

/** This version of the program, as it stands here. */
export const here = join(import.meta.dirname, "../..");

/** One instance of the app, a process of its own. */
export type Instance = {
  name: string;
  url: string;
  /** What it printed so far. */
  said: () => string;
  end: (how: "SIGTERM" | "SIGKILL") => Promise<void>;
};

const started = new Set<Instance>();

/** Starts an instance of the program in a folder, and waits until it is ready. */
export async function startInstance(
  name: string,
  variables: Record<string, string>,
  folder = here,
): Promise<Instance> {
  const port = await freePort();
  const child = spawn(process.execPath, ["--import", "tsx", "src/main.ts"], {
    cwd: folder,
    env: {
      ...{ PATH: process.env.PATH, NODE_ENV: "production", LOG_LEVEL: "error" },
      ...{ HOST: "127.0.0.1", PORT: String(port), ...variables },
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  process.once("exit", () => child.kill("SIGKILL"));
  let said = "";
  for (const stream of [child.stdout, child.stderr])
    stream.on("data", (chunk) => {
      said += chunk;
    });
  const url = `http://127.0.0.1:${port}`;
  const instance: Instance = {
    name,
    url,
    said: () => said,
    async end(how) {
      started.delete(instance);
      child.kill(how);
      await ended(child);
    },
  };
  started.add(instance);
  await until(`instance ${name} is ready`, async () => {
    if (child.exitCode !== null) throw new Error(`instance ${name} ended: ${said}`);
    return fetch(`${url}/readyz`).then(
      (answer) => answer.ok,
      () => false,
    );
  });
  return instance;
}

/** Ends whatever was started and not ended. */
export const endAll = () => Promise.all([...started].map((instance) => instance.end("SIGKILL")));
