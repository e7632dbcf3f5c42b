import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { firingWithdrawals } from "./schema/index.ts";
import { unsettleFiring } from "./unsettling.ts";

export type FiringWithdrawal = { kind: "withdrawn" } | { kind: "withdrawn-before" };

/** Withdraws a firing, for good and with the reason: it stays on record, and its cones witness nothing. */
export async function withdrawFiring(
  db: Db,
  { firingId, why, by, at }: Act & { by: string; firingId: string; why: string },
): Promise<FiringWithdrawal> {
  return db.transaction(async (tx) => {
    const [made] = await tx
      .insert(firingWithdrawals)
      .values({ firingId, why, by, at })
      .onConflictDoNothing()
      .returning({ firingId: firingWithdrawals.firingId });
    if (!made) return { kind: "withdrawn-before" };
    await unsettleFiring(tx, firingId);
    const happening = { kind: "firing withdrawn", subject: "firing", subjectId: firingId } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "withdrawn" };
  });
}
