import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";

export const password = "a-demo-password";

export type Running = { url: string; end: () => Promise<void> };

/**
 * The demo as a person starts it, on a port of its own: made where the folder is empty, else kept.
 * All of it is there then, also what follows the first page.
 */
export async function runDemo(folder: string): Promise<Running> {
  const demo = spawn(process.execPath, ["--import", "tsx", "src/demo.ts"], {
    cwd: join(import.meta.dirname, "../.."),
    env: { ...process.env, PORT: "0", DATA_DIR: folder, DEMO_PASSWORD: password, DATABASE_URL: "" },
    stdio: ["ignore", "pipe", "inherit"],
  });
  return {
    url: await addressFrom(demo),
    async end() {
      const gone = once(demo, "exit");
      demo.kill("SIGTERM");
      await gone;
    },
  };
}

function addressFrom(demo: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    demo.stdout?.on("data", (chunk) => {
      said += chunk;
      const url = /http:\/\/localhost:\d+/.exec(said)?.[0];
      if (url && said.includes("whole year is there")) resolve(url);
    });
    demo.once("exit", (code) => reject(new Error(`the demo ended with ${code}: ${said}`)));
  });
}
