import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import type { Config } from "./config.ts";
import { type Database, openDatabase } from "./db/client.ts";
import { offerFirstInvite } from "./db/invites.ts";
import { keepMailing, openPost } from "./work/mailing.ts";
import { recomputeAll } from "./work/recomputing.ts";
import { keepSettling } from "./work/settling.ts";
import { solver } from "./work/solver.ts";

export type Serving = {
  url: string;
  database: Database;
  welcome: string[];
  stop: () => Promise<void>;
};

/**
 * Opens the database, serves the studio, and stops both in order on SIGTERM and SIGINT: no new
 * requests, those under way finished, then the database closed.
 *
 * @param prepare what has to be in the database before anybody is served, such as the demo's studio.
 */
export async function serveStudio(
  config: Config,
  prepare: (database: Database) => Promise<string[]> = async () => [],
): Promise<Serving> {
  // The rooms load while the database opens: neither needs the other yet.
  const [{ openApp }, database] = await Promise.all([import("./app.ts"), openDatabase(config)]);
  const prepared = await prepare(database);
  const app = await openApp(database.db, config, (line) => console.error(line));
  const server = serve({ fetch: app.fetch, port: config.port, hostname: config.host });
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
  const working = Promise.all([
    recomputeAll(database.db, { signal }).catch((error) =>
      console.error(`The chemistry of older revisions could not be worked out anew: ${error}`),
    ),
    keepSettling(database.db, { signal }),
    keepMailing(database.db, openPost(config), { signal }),
  ]);

  let stopping: Promise<void> | undefined;
  const stop = () => {
    background.abort();
    stopping ??= new Promise<void>((resolve) => {
      server.close(() => resolve());
      if ("closeIdleConnections" in server) server.closeIdleConnections();
      setTimeout(
        () => "closeAllConnections" in server && server.closeAllConnections(),
        10_000,
      ).unref();
    })
      .then(() => Promise.all([working, solver.end()]))
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
    ...prepared,
    ...(invite
      ? [`Nobody belongs to this studio yet. The first manager joins at ${url}${invite}`]
      : []),
  ];
  return { url, database, welcome, stop };
}

const noMailWithoutAddress =
  "SMTP_URL is set and PUBLIC_URL is not: no mail is sent, since its links would lead nowhere.";

const embeddedCaution = (folder: string) =>
  `The embedded database in ${folder} is for trying out: it survives a killed process, not a power cut. A studio sets DATABASE_URL to a Postgres.`;
