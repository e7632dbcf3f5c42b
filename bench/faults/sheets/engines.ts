import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Database, openDatabase } from "../../../src/db/client.ts";
import { run } from "../../sheets/app.ts";
import { type Cluster, makeCluster } from "./cluster.ts";
import { leftOut, promised } from "./promises.ts";

/** What a studio is kept in, made for one fault and removed after it. */
export type Engine = {
  name: "embedded" | "Postgres";
  /** What the program is told of it. */
  variables: Record<string, string>;
  cluster: Cluster | undefined;
  /** Opens it here, while no app runs on it. */
  open: () => Promise<Database>;
};

type Fault = (engine: Engine) => Promise<void>;

export async function onEachEngine(fault: Fault): Promise<void> {
  await onEmbedded(fault);
  await onPostgres(fault);
}

/** @param among the folder to make the engine's own in. */
export async function onEmbedded(fault: Fault, among = tmpdir()): Promise<void> {
  const folder = mkdtempSync(join(among, "bucket-fault-"));
  const open = () =>
    openDatabase({ databaseUrl: undefined, migrateUrl: undefined, dataDir: folder });
  const variables = { DATABASE_URL: "", DATA_DIR: folder };
  try {
    await fault({ name: "embedded", variables, cluster: undefined, open });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export async function onPostgres(
  fault: (engine: Engine & { cluster: Cluster }) => Promise<void>,
  given: Parameters<typeof makeCluster>[0] = {},
): Promise<void> {
  const cluster = await makeCluster(given);
  if (!cluster) return leftOut("Postgres", "no initdb of 15 or later in /usr/lib/postgresql");
  const { url } = cluster;
  const open = () => openDatabase({ databaseUrl: url, migrateUrl: undefined, dataDir: "" });
  try {
    await fault({
      name: "Postgres",
      variables: { DATABASE_URL: url, DATA_DIR: "" },
      cluster,
      open,
    });
  } finally {
    cluster.drop();
  }
}

/** `npm run verify` finds nothing. */
export function verifyClean({ name, variables }: Engine): void {
  const { status, said } = run("verify", variables);
  promised(name, "verify is clean", status === 0, said.split("\n")[0] ?? "");
}
