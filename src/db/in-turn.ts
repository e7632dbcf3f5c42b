import { sql } from "drizzle-orm";
import type { Database } from "./client.ts";

/** What instances do one at a time, each by a lock that every instance asks for. */
const locks = { "backing up": 7_263_405 } as const;

/**
 * Does something unless another instance is at it. The lock is held by a transaction that does nothing
 * else, so that whoever is killed has lost it; what is done asks by other connections. The embedded
 * engine has one connection and one process, and nobody to wait for.
 *
 * @returns undefined where another instance is at it.
 */
export async function inTurn<Done>(
  { db, engine }: Pick<Database, "db" | "engine">,
  what: keyof typeof locks,
  work: () => Promise<Done>,
): Promise<Done | undefined> {
  if (engine === "embedded") return work();
  return db.transaction(async (tx) => {
    const [lock] = await tx
      .select({ isOurs: sql<boolean>`pg_try_advisory_xact_lock(${locks[what]})` })
      .from(sql`(values (1)) as one`);
    return lock?.isOurs ? work() : undefined;
  });
}
