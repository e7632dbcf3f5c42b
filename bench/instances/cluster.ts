import { type ChildProcess, execFile, spawn } from "node:child_process";
import { chmod, chown, mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import postgres from "postgres";
import { findPrograms, unprivileged } from "../sheets/postgres-programs.ts";
import { ended, freePort } from "../sheets/processes.ts";
import { until } from "../sheets/waiting.ts";

const run = promisify(execFile);

/** A Postgres of one's own with a streaming replica, in a folder that goes when it is removed. */
export type Cluster = {
  url: string;
  replicaUrl: string;
  /** Ends the replica as a power cut does. */
  killReplica: () => Promise<void>;
  startReplica: () => Promise<void>;
  remove: () => Promise<void>;
};

export async function makeCluster(): Promise<Cluster> {
  const bin = findPrograms();
  if (!bin) throw new Error("This needs the programs of Postgres 15 or later, its server's too.");
  const as: { uid?: number; gid?: number } = unprivileged() ?? {};
  const folder = await mkdtemp(join(tmpdir(), "bucket-cluster-"));
  await chmod(folder, 0o711);
  const own = async (name: string) => {
    const path = join(folder, name);
    await mkdir(path, { mode: 0o700 });
    if (as.uid !== undefined) await chown(path, as.uid, as.gid ?? as.uid);
    return path;
  };
  const [main, copy, sockets] = [await own("main"), await own("copy"), await own("sockets")];
  const call = (program: string, args: string[]) =>
    run(join(bin, program), args, { ...as, cwd: sockets });

  const start = async (data: string, port: number): Promise<ChildProcess> => {
    const settings = [
      ...["listen_addresses=127.0.0.1", `unix_socket_directories=${sockets}`, `port=${port}`],
      ...["shared_buffers=64MB", "max_connections=80", "wal_level=replica", "hot_standby=on"],
      ...["log_min_messages=fatal", "wal_receiver_timeout=5s", "wal_retrieve_retry_interval=500ms"],
    ].flatMap((setting) => ["-c", setting]);
    const server = spawn(join(bin, "postgres"), ["-D", data, ...settings], {
      ...{ ...as, cwd: sockets, stdio: "ignore" },
    });
    process.once("exit", () => server.kill("SIGQUIT"));
    await until(`a Postgres at ${port}`, () => answers(urlOf(port)));
    return server;
  };

  const port = await freePort();
  const copyPort = await freePort();
  await call("initdb", ["-D", main, "-U", "postgres", "-A", "trust", "-E", "UTF8", "--no-sync"]);
  const primary = await start(main, port);
  await call("pg_basebackup", [
    ...["-D", copy, "-R", "-X", "stream", "-c", "fast", "--no-sync"],
    ...["-h", "127.0.0.1", "-p", String(port), "-U", "postgres"],
  ]);
  let replica = await start(copy, copyPort);

  const end = async (server: ChildProcess, how: "SIGINT" | "SIGQUIT") => {
    server.kill(how);
    await ended(server);
  };
  return {
    url: urlOf(port),
    replicaUrl: urlOf(copyPort),
    killReplica: () => end(replica, "SIGQUIT"),
    async startReplica() {
      replica = await start(copy, copyPort);
    },
    async remove() {
      await end(replica, "SIGQUIT");
      await end(primary, "SIGINT");
      await rm(folder, { recursive: true, force: true });
    },
  };
}

const urlOf = (port: number) => `postgres://postgres@127.0.0.1:${port}/postgres`;

async function answers(url: string): Promise<boolean> {
  const client = postgres(url, { max: 1, connect_timeout: 2, onnotice: () => {} });
  const reached = await client`select 1`.then(
    () => true,
    () => false,
  );
  await client.end();
  return reached;
}
