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
