import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import type { Config } from "./config.ts";
import { type Database, openDatabase } from "./db/client.ts";
import { beginTelling } from "./telling.ts";
import { arrivingWithin, endUnread } from "./wire/patience.ts";

export type Serving = {
  url: string;
  database: Database;
  welcome: string[];
  /** Once everything that was to be prepared is there. */
  prepared: Promise<void>;
  stop: () => Promise<void>;
};

/** What a start has to say of what it prepared, and what is left to prepare beside the requests. */
export type Preparation = { says: string[]; follow?: (() => Promise<void>) | undefined };

/**
 * Opens the database, serves the studio, and stops both in order on SIGTERM and SIGINT: no new
 * requests, those under way finished, then the database closed.
 *
 * @param prepare what has to be in the database before anybody is served, such as the demo's studio.
 */
export async function serveStudio(
  config: Config,
  prepare: (database: Database) => Promise<Preparation> = async () => ({ says: [] }),
): Promise<Serving> {
  // The rooms load while the database opens: neither needs the other yet.
  const telling = beginTelling(config);
  const opening = openDatabase(config, {
    slowerThan: config.slowQueryMs,
    tell: telling.slow,
    statementMs: config.statementSeconds * 1000,
  });
  const [database, { openApp }, { workBeside }, { watchReplica }, { offerFirstInvite }] =
    await Promise.all([
      opening,
      import("./app.ts"),
      import("./work/beside.ts"),
      import("./work/watching-replica.ts"),
      import("./db/invites.ts"),
    ]);
  const { says, follow } = await prepare(database);
  const { replica } = database;
  if (replica) telling.metrics?.followReplica(replica.behindSeconds);
  const app = await openApp(database.db, config, telling, telling.metrics, replica);
  const requestMs = config.requestSeconds * 1000;
  const server = serve({
    ...{ fetch: app.fetch, port: config.port, hostname: config.host },
    serverOptions: arrivingWithin(requestMs),
  }) as Server;
  endUnread(server, requestMs);
  await new Promise<void>((resolve, reject) => {
    server.once("listening", resolve);
    server.once("error", reject);
  }).catch(async (error) => {
    await database.close();
    throw error;
  });
  const { port } = server.address() as AddressInfo;
  const url = config.publicUrl ?? `http://localhost:${port}`;

  const background = new AbortController();
  const { signal } = background;
  const watching = watchReplica(replica, { signal, tell: telling.replica });
  const prepared = follow ? follow() : Promise.resolve();
  const working = prepared.catch(() => {}).then(() => workBeside(database, config, signal));

  let stopping: Promise<void> | undefined;
  const stop = () => {
    background.abort();
    stopping ??= new Promise<void>((resolve) => {
      server.close(() => resolve());
      server.closeIdleConnections();
      setTimeout(() => server.closeAllConnections(), 10_000).unref();
    })
      .then(() => Promise.all([working, watching]))
      .then(() => database.close());
    return stopping;
  };
  for (const signal of ["SIGTERM", "SIGINT"] as const) {
    process.once(signal, () => void stop().then(() => process.exit(0)));
  }
  const invite = await offerFirstInvite(database.db, new Date());
  const welcome = [
    `Common Bucket serves ${url}`,
    ...(database.engine === "embedded" ? [embeddedCaution(config.dataDir)] : []),
    ...(config.smtpUrl && !config.publicUrl ? [noMailWithoutAddress] : []),
    ...says,
    ...(invite
      ? [`Nobody belongs to this studio yet. The first manager joins at ${url}${invite}`]
      : []),
  ];
  return { url, database, welcome, prepared, stop };
}

const noMailWithoutAddress =
  "SMTP_URL is set and PUBLIC_URL is not: no mail is sent, since its links would lead nowhere.";

const embeddedCaution = (folder: string) =>
  `The embedded database in ${folder} is for trying out: it survives a killed process, not a power cut. A studio sets DATABASE_URL to a Postgres.`;
