import { setTimeout as wait } from "node:timers/promises";
import type { Replica, ReplicaIs } from "../db/replica.ts";

const pauseMs = 500;

/**
 * Looks, beside the requests, how far the replica has come, until it is told to end.
 *
 * @param tell is told what the replica is whenever that is something else than before.
 */
export async function watchReplica(
  replica: Replica | undefined,
  { signal, tell }: { signal: AbortSignal; tell: (is: ReplicaIs) => void },
): Promise<void> {
  let before: ReplicaIs | undefined;
  while (replica && !signal.aborted) {
    await replica.look();
    const is = replica.is();
    if (is !== before) tell(is);
    before = is;
    await wait(pauseMs, undefined, { signal }).catch(() => {});
  }
}
