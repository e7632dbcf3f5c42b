import { type Head, readChain } from "../db/chain.ts";
import type { Db } from "../db/client.ts";

export type Verified = { sound: boolean; lines: string[] };

/**
 * Checks what the studio keeps against itself: the chain of events from the first to the head, which
 * is told so that it can be noted down elsewhere.
 *
 * @param last a head that was noted down before; what was cut off after it is named.
 */
export async function verify(db: Db, { last }: { last?: Head | undefined }): Promise<Verified> {
  const { head, fault } = await readChain(db, { last });
  if (fault) return { sound: false, lines: [`The chain of events does not hold: ${fault.says}.`] };
  return {
    sound: true,
    lines: [
      head.seq === 0
        ? "Nothing has happened yet: the chain of events is empty."
        : `The chain of ${head.seq} ${head.seq === 1 ? "event" : "events"} holds. Head: ${head.seq}:${head.hash}`,
    ],
  };
}

/** A head as `npm run verify` prints it, `12:` and 64 digits; undefined where it is none. */
export function readHead(text: string): Head | undefined {
  const [, seq, hash] = /^([1-9]\d{0,14}):([0-9a-f]{64})$/.exec(text) ?? [];
  return seq && hash ? { seq: Number(seq), hash } : undefined;
}
