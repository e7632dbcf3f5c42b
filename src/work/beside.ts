import type { Database, Db } from "../db/client.ts";
import type { openPost } from "./mailing.ts";
import { keepRecomputing } from "./recomputing.ts";
import { keepSettling } from "./settling.ts";
import { solver } from "./solver.ts";

type Settings = Parameters<typeof openPost>[0] & { backupDir: string | undefined };

/** All that goes on beside the requests, until it is told to end; ready when the last of it has. */
export async function workBeside(
  database: Pick<Database, "db" | "engine">,
  settings: Settings,
  signal: AbortSignal,
): Promise<void> {
  const { db } = database;
  await Promise.all([
    keepRecomputing(db, { signal }),
    keepSettling(db, { signal }),
    mail(db, settings, signal),
    backUp(database, settings, signal),
  ]);
  await solver.end();
}

async function backUp(
  database: Pick<Database, "db" | "engine">,
  { backupDir }: Settings,
  signal: AbortSignal,
): Promise<void> {
  if (backupDir === undefined) return;
  const { keepBackingUp } = await import("./backing-up.ts");
  await keepBackingUp(database, backupDir, { signal });
}

/** What sends is loaded only where a studio sends. */
async function mail(db: Db, settings: Settings, signal: AbortSignal): Promise<void> {
  if (!settings.smtpUrl) return;
  const { keepMailing, openPost } = await import("./mailing.ts");
  await keepMailing(db, openPost(settings), { signal });
}
