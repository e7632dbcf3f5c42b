import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";

export type Server = {
  url: string;
  /** Ends it as an operator does, or at once, as a power cut does. */
  end: (how: "SIGTERM" | "SIGKILL") => Promise<void>;
};

/** The real server as a process of its own, on a port of its own. */
export async function startServer(variables: Record<string, string>): Promise<Server> {
  const server = spawn(process.execPath, ["--import", "tsx", "src/main.ts"], {
    cwd: join(import.meta.dirname, ".."),
    env: { ...process.env, PUBLIC_URL: "", HOST: "127.0.0.1", PORT: "0", ...variables },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const gone = once(server, "exit");
  return {
    url: await addressFrom(server),
    async end(how) {
      server.kill(how);
      await gone;
    },
  };
}

function addressFrom(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    server.stdout?.on("data", (chunk) => {
      said += chunk;
      const port = /http:\/\/localhost:(\d+)/.exec(said)?.[1];
      if (port) resolve(`http://127.0.0.1:${port}`);
    });
    server.once("exit", (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
  });
}
