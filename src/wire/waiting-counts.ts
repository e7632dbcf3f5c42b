import { findHeadHash } from "../db/chain.ts";
import { countWaiting } from "../db/waiting.ts";
import type { Ctx } from "./context.ts";

type Counted = { role: string; head: string; at: number; count: number };

const minute = 60_000;
const most = 2000;

/** By person. What waits changes with what happens, and with time only where an approval ends. */
const remembered = new Map<string, Counted>();

/**
 * How much waits for who is signed in; nothing is said to a visitor. It is counted anew when
 * something was put on record since, and otherwise once a minute, so that a page costs one look at
 * the head of the record. Where something broke the database is not asked again.
 */
export async function waitingFor(c: Ctx): Promise<number | undefined> {
  const { db, viewer: reader, now } = c.var;
  if (!reader || c.error) return undefined;
  const head = await findHeadHash(db);
  const known = remembered.get(reader.id);
  const age = known ? now.getTime() - known.at : minute;
  if (known?.head === head && known.role === reader.role && age >= 0 && age < minute)
    return known.count;
  const count = await countWaiting(db, { reader, now });
  if (remembered.size >= most) remembered.clear();
  remembered.set(reader.id, { role: reader.role, head, at: now.getTime(), count });
  return count;
}
