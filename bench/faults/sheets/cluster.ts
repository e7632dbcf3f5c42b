import { execFileSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** How a server is stopped: sessions ended and all written down, or as if it had crashed. */
export type Stopping = "fast" | "immediate";

/** A Postgres server of one's own, on a port of its own. */
export type Cluster = {
  url: string;
  stop: (how: Stopping) => void;
  start: () => void;
  drop: () => void;
};

/** The newest Postgres of 15 or later on this machine, or undefined where there is none. */
export function findBinaries(): string | undefined {
  const versions = existsSync("/usr/lib/postgresql") ? readdirSync("/usr/lib/postgresql") : [];
  const [newest] = versions
    .map(Number)
    .filter((version) => version >= 15)
    .sort((one, other) => other - one);
  return newest === undefined ? undefined : `/usr/lib/postgresql/${newest}/bin`;
}

/** Postgres refuses to run as root, and then runs as its own user or as nobody. */
function unprivileged(): { uid: number; gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const ask = (what: string, who: string) =>
    Number(
      execFileSync("id", [what, who], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }),
    );
  for (const who of ["postgres", "nobody"]) {
    try {
      return { uid: ask("-u", who), gid: ask("-g", who) };
    } catch {}
  }
  return undefined;
}

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
  const binaries = findBinaries();
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

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await new Promise((resolve) => server.once("listening", resolve));
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (address === null || typeof address === "string") throw new Error("no port is free");
  return address.port;
}
