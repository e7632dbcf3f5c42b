import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { ended, freePort, untilAnswers } from "./processes.ts";

/** This version of the program, as it stands here. */
export const project = resolve(import.meta.dirname, "../..");

type Started = {
  /** What it is called among several. */
  name?: string;
  /** Where the program lies: here, unless a changed copy of it is to run. */
  folder?: string;
  /** Modules that are loaded before it. */
  imports?: string[];
};

/** The real server in a process of its own. */
export class App {
  readonly name: string;
  readonly url: string;
  readonly #child: ChildProcess;
  readonly #said: () => string;

  constructor(name: string, url: string, child: ChildProcess, said: () => string) {
    this.name = name;
    this.url = url;
    this.#child = child;
    this.#said = said;
  }

  /** What it printed so far. */
  get said(): string {
    return this.#said();
  }

  get pid(): number {
    return this.#child.pid ?? 0;
  }

  get runs(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null;
  }

  async end(how: "SIGTERM" | "SIGKILL"): Promise<void> {
    this.#child.kill(how);
    await ended(this.#child);
  }

  /** The most memory that it ever had, MB, where the system tells. */
  get peakMegabytes(): number {
    const status = readFileSync(`/proc/${this.pid}/status`, "utf8");
    return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) / 1024;
  }
}

const environment = (variables: Record<string, string>) => ({
  ...process.env,
  ...{ PUBLIC_URL: "", SMTP_URL: "", BACKUP_DIR: "", MIGRATE_URL: "", LOG_LEVEL: "warn" },
  ...{ NODE_ENV: "production", HOST: "127.0.0.1", ...variables },
});

/** Once it serves; it ends with this process. @throws what it said where it ended before. */
export async function startApp(
  variables: Record<string, string>,
  { name = "app", folder = project, imports = [] }: Started = {},
): Promise<App> {
  const port = await freePort();
  const given = ["tsx", ...imports].flatMap((module) => ["--import", module]);
  const child = spawn(process.execPath, [...given, "src/main.ts"], {
    cwd: folder,
    env: environment({ PORT: `${port}`, ...variables }),
    stdio: ["ignore", "pipe", "pipe"],
  });
  const kill = () => child.kill("SIGKILL");
  process.once("exit", kill);
  child.once("exit", () => process.off("exit", kill));
  const closed = once(child, "close");
  let said = "";
  for (const stream of [child.stdout, child.stderr])
    stream.on("data", (chunk) => {
      said += chunk;
    });
  const url = `http://127.0.0.1:${port}`;
  await untilAnswers(`${url}/readyz`, child).catch(async (error) => {
    if (child.exitCode === null) throw error;
    await closed;
    throw new Error(said);
  });
  return new App(name, url, child, () => said);
}

/** Runs one of the project's programs to its end. */
export function run(program: string, variables: Record<string, string>, args: string[] = []) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["--import", "tsx", `src/${program}.ts`, ...args],
    { cwd: project, env: environment(variables), encoding: "utf8" },
  );
  return { status, said: `${stdout}${stderr}`.trim() };
}
