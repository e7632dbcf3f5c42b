import { type Head, readChain } from "../db/chain.ts";
import type { Db } from "../db/client.ts";
import { findKeptFaults } from "../db/library-kept.ts";
import { findStandingFaults } from "../db/standings.ts";

export type Verified = { sound: boolean; lines: string[] };

/**
 * Checks what the studio keeps against itself: the chain of events from the first to the head, which
 * is told so that it can be noted down elsewhere, every kept standing against one derived afresh, and
 * what the library is searched by likewise.
 *
 * @param last a head that was noted down before; what was cut off after it is named.
 */
export async function verify(
  db: Db,
  { last, now }: { last?: Head | undefined; now: Date },
): Promise<Verified> {
  const chain = await verifyChain(db, last);
  const standings = await verifyStandings(db, now);
  const library = await verifyLibrary(db);
  return {
    sound: chain.sound && standings.sound && library.sound,
    lines: [...chain.lines, ...standings.lines, ...library.lines],
  };
}

async function verifyChain(db: Db, last: Head | undefined): Promise<Verified> {
  const { head, fault } = await readChain(db, { last });
  if (fault) return { sound: false, lines: [`The chain of events does not hold: ${fault.says}.`] };
  if (head.seq === 0)
    return { sound: true, lines: ["Nothing has happened yet: the chain of events is empty."] };
  const all = head.seq === 1 ? "one event" : `${head.seq} events`;
  return { sound: true, lines: [`The chain of ${all} holds. Head: ${head.seq}:${head.hash}`] };
}

async function verifyStandings(db: Db, now: Date): Promise<Verified> {
  const faults = await findStandingFaults(db, { now });
  if (faults.length === 0)
    return { sound: true, lines: ["Every standing is what the record makes of it."] };
  return {
    sound: false,
    lines: faults.map(
      ({ slug, number, kept, derived }) =>
        `${slug}, revision ${number}: kept as “${kept}”, but the record makes it “${derived}”.`,
    ),
  };
}

async function verifyLibrary(db: Db): Promise<Verified> {
  const faults = await findKeptFaults(db);
  if (faults.length === 0)
    return { sound: true, lines: ["The library is searched by what the record says."] };
  return {
    sound: false,
    lines: faults.map(
      ({ recipe, what }) => `${recipe}: what is kept of it to search by is out of date (${what}).`,
    ),
  };
}

/** A head as `npm run verify` prints it, `12:` and 64 digits; undefined where it is none. */
export function readHead(text: string): Head | undefined {
  const [, seq, hash] = /^([1-9]\d{0,14}):([0-9a-f]{64})$/.exec(text) ?? [];
  return seq && hash ? { seq: Number(seq), hash } : undefined;
}
