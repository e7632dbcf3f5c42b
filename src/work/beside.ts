import type { Db } from "../db/client.ts";
import type { openPost } from "./mailing.ts";
import { recomputeAll } from "./recomputing.ts";
import { keepSettling } from "./settling.ts";
import { solver } from "./solver.ts";

type Settings = Parameters<typeof openPost>[0] & { backupDir: string | undefined };

/** All that goes on beside the requests, until it is told to end; ready when the last of it has. */
export async function workBeside(db: Db, settings: Settings, signal: AbortSignal): Promise<void> {
  await Promise.all([
    recomputeAll(db, { signal }).catch((error) =>
      console.error(`The chemistry of older revisions could not be worked out anew: ${error}`),
    ),
    keepSettling(db, { signal }),
    mail(db, settings, signal),
    backUp(db, settings, signal),
  ]);
  await solver.end();
}

async function backUp(db: Db, { backupDir }: Settings, signal: AbortSignal): Promise<void> {
  if (backupDir === undefined) return;
  const { keepBackingUp } = await import("./backing-up.ts");
  await keepBackingUp(db, backupDir, { signal });
}

/** What sends is loaded only where a studio sends. */
async function mail(db: Db, settings: Settings, signal: AbortSignal): Promise<void> {
  if (!settings.smtpUrl) return;
  const { keepMailing, openPost } = await import("./mailing.ts");
  await keepMailing(db, openPost(settings), { signal });
}
