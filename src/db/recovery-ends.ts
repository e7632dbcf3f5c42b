import { and, eq, gt, isNull, type SQL } from "drizzle-orm";
import type { Db } from "./client.ts";
import { recoveries } from "./schema/index.ts";

/** A link to set a new password that can still be used. */
export const openRecovery = (at: Date): SQL | undefined =>
  and(isNull(recoveries.usedAt), isNull(recoveries.revokedAt), gt(recoveries.expiresAt, at));

/** Ends what links somebody made and nobody used: a manager who is one no longer keeps no way in. */
export const revokeRecoveriesBy = (
  tx: Db,
  { personId, at }: { personId: string; at: Date },
): Promise<unknown> => revoke(tx, at, eq(recoveries.madeBy, personId));

/** Ends the links that are for somebody: a new password is set, whoever else holds one. */
export const revokeRecoveriesOf = (
  tx: Db,
  { personId, at }: { personId: string; at: Date },
): Promise<unknown> => revoke(tx, at, eq(recoveries.personId, personId));

const revoke = (tx: Db, at: Date, which: SQL) =>
  tx
    .update(recoveries)
    .set({ revokedAt: at })
    .where(and(which, openRecovery(at)));
