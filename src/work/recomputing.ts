import { setTimeout as wait } from "node:timers/promises";
import type { Db } from "../db/client.ts";
import { recomputeSome } from "../db/recomputing.ts";

const pause = () => new Promise<void>((resolve) => setImmediate(resolve));

/**
 * Works out anew, beside the requests, what an earlier engine worked out. It lets requests in
 * between batches, ends within one batch when told to, and goes on where it was at the next start.
 *
 * @returns how many revisions were done.
 */
export async function recomputeAll(
  db: Db,
  { signal, limit = 100 }: { signal?: AbortSignal | undefined; limit?: number | undefined } = {},
): Promise<number> {
  let done = 0;
  while (!signal?.aborted) {
    const some = await recomputeSome(db, { limit, at: new Date() });
    if (some === 0) break;
    done += some;
    await pause();
  }
  return done;
}

/** Between looks, milliseconds. */
const pauseMs = 30_000;

/**
 * Works out anew what an earlier engine worked out, and looks again from time to time until it is
 * told to end: an instance that had some in hand may have been killed, and one of the version before
 * may still be writing.
 */
export async function keepRecomputing(
  db: Db,
  { signal, pause: between = pauseMs }: { signal: AbortSignal; pause?: number },
): Promise<void> {
  while (!signal.aborted) {
    await recomputeAll(db, { signal }).catch((error) =>
      console.error(`The chemistry of older revisions could not be worked out anew: ${error}`),
    );
    await wait(between, undefined, { signal }).catch(() => {});
  }
}
