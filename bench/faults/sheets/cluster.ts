import { execFileSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { findPrograms, unprivileged } from "../../sheets/postgres-programs.ts";
import { freePort } from "../../sheets/processes.ts";

/** How a server is stopped: sessions ended and all written down, or as if it had crashed. */
export type Stopping = "fast" | "immediate";

/** A Postgres server of one's own, on a port of its own. */
export type Cluster = {
  url: string;
  stop: (how: Stopping) => void;
  start: () => void;
  drop: () => void;
};

/**
 * Makes and starts a server whose files lie in `folder`, else in one of its own.
 *
 * @param settings in the words of postgresql.conf.
 */
export async function makeCluster({
  folder,
  settings = [],
}: {
  folder?: string;
  settings?: string[];
} = {}): Promise<Cluster | undefined> {
  const binaries = findPrograms();
  if (!binaries) return undefined;
  const who = unprivileged();
  const home = folder ?? mkdtempSync(join(tmpdir(), "bucket-cluster-"));
  if (who) chownSync(home, who.uid, who.gid);
  const data = join(home, "data");
  const call = (program: string, args: string[]) =>
    execFileSync(join(binaries, program), args, {
      cwd: home,
      stdio: ["ignore", "ignore", "inherit"],
      ...who,
    });
  call("initdb", ["-D", data, "-U", "bucket", "-A", "trust", "-E", "UTF8", "--locale=C", "-N"]);

  const port = await freePort();
  const said = ["listen_addresses=127.0.0.1", `unix_socket_directories=${home}`, `port=${port}`];
  const options = [...said, ...settings].map((setting) => `-c ${setting}`).join(" ");
  const control = (...args: string[]) =>
    call("pg_ctl", ["-D", data, "-s", "-w", "-t", "60", "-l", join(home, "log"), ...args]);
  const start = () => control("-o", options, "start");
  const stop = (how: Stopping) => control("-m", how, "stop");
  let dropped = false;
  const drop = () => {
    if (dropped) return;
    dropped = true;
    try {
      if (existsSync(join(data, "postmaster.pid"))) stop("immediate");
    } finally {
      rmSync(folder ? data : home, { recursive: true, force: true });
    }
  };
  process.once("exit", drop);
  start();
  return { url: `postgres://bucket@127.0.0.1:${port}/postgres`, stop, start, drop };
}
