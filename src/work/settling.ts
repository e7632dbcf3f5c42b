import { setTimeout as wait } from "node:timers/promises";
import type { Db } from "../db/client.ts";
import { settleSome } from "../db/standings.ts";

/** Between looks, seconds: what somebody opens is settled at once whatever this is. */
const pauseSeconds = 5;

/**
 * Settles, beside the requests, what revisions count as after something changed that bears on it, so
 * that lists show it soon. Ends when told to.
 */
export async function keepSettling(db: Db, { signal }: { signal: AbortSignal }): Promise<void> {
  while (!signal.aborted) {
    const some = await settleSome(db, { limit: 100, now: new Date() }).catch((error) => {
      // A database that is away for a moment is tried again; pages settle what they show meanwhile.
      console.error(`What some revisions count as could not be settled: ${error}`);
      return 0;
    });
    if (some === 0) await wait(pauseSeconds * 1000, undefined, { signal }).catch(() => {});
    else await wait(0);
  }
}
