import { and, desc, eq, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid } from "uuid";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import type { Reader, Withdrawal } from "./recipes.ts";
import {
  firingKinds,
  firings,
  firingWithdrawals,
  kilns,
  people,
  type Segment,
} from "./schema/index.ts";
import { listWitness, type WitnessCone } from "./witness-cones.ts";

export { firingKinds, type Segment };

export type FiringKind = (typeof firingKinds)[number];

/** One firing of one kiln. `cone` is what it was fired for, not what it came to. */
export type FoundFiring = {
  id: string;
  kiln: { slug: string; name: string };
  kind: FiringKind;
  cone: Cone;
  startedAt: Date;
  programme: Segment[];
  witness: WitnessCone[];
  remark: string;
  by: { id: string; name: string };
  at: Date;
  /** It was put down wrong: its cones witness nothing. */
  withdrawn: Withdrawal | null;
};

/** What a reader may do with a firing that stands. */
export type FiringRights = {
  /** Readings, witness cones and costs: who put it on record, a reviewer or a manager. */
  mayAdd: boolean;
  /** Who put it on record, or a manager. */
  mayWithdraw: boolean;
};

/** What a reader may do with a firing, whether it was withdrawn or not. */
export function rightsTo({ by }: Pick<FoundFiring, "by">, reader: Reader): FiringRights {
  const mayWithdraw = reader !== undefined && (reader.role === "manager" || reader.id === by.id);
  return { mayWithdraw, mayAdd: mayWithdraw || reader?.role === "reviewer" };
}

/** One firing, or undefined where there is none of that id. */
export async function findFiring(db: Db, { id }: { id: string }): Promise<FoundFiring | undefined> {
  if (!isUuid(id)) return undefined;
  const [found] = await readFirings(db, { which: eq(firings.id, id), limit: 1 });
  return found;
}

/**
 * Firings by when they began, newest first, of one kiln or of all.
 *
 * @param after the id of the last firing of the page before, as `next` gave it.
 */
export async function listFirings(
  db: Db,
  {
    kilnId,
    after,
    limit = 50,
  }: { kilnId?: string | undefined; after?: string | undefined; limit?: number } = {},
): Promise<{ items: FoundFiring[]; next: string | null }> {
  const which = and(
    kilnId === undefined ? undefined : eq(firings.kilnId, kilnId),
    after === undefined ? undefined : earlierThan(db, after),
  );
  const rows = await readFirings(db, { which, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

const earlierThan = (db: Db, id: string): SQL => {
  const last = db
    .select({ startedAt: firings.startedAt, id: firings.id })
    .from(firings)
    .where(eq(firings.id, id));
  return sql`(${firings.startedAt}, ${firings.id}) < ${last}`;
};

const withdrawers = alias(people, "withdrawers");

async function readFirings(
  db: Db,
  { which, limit }: { which: SQL | undefined; limit: number },
): Promise<FoundFiring[]> {
  const rows = await db
    .select({
      id: firings.id,
      kiln: { slug: kilns.slug, name: kilns.name },
      kind: firings.kind,
      cone: firings.cone,
      startedAt: firings.startedAt,
      programme: firings.programme,
      remark: firings.remark,
      by: { id: people.id, name: people.name },
      at: firings.at,
      withdrawnWhy: firingWithdrawals.why,
      withdrawnAt: firingWithdrawals.at,
      withdrawnBy: withdrawers.name,
    })
    .from(firings)
    .innerJoin(kilns, eq(kilns.id, firings.kilnId))
    .innerJoin(people, eq(people.id, firings.by))
    .leftJoin(firingWithdrawals, eq(firingWithdrawals.firingId, firings.id))
    .leftJoin(withdrawers, eq(withdrawers.id, firingWithdrawals.by))
    .where(which)
    .orderBy(desc(firings.startedAt), desc(firings.id))
    .limit(limit);
  const stood = await listWitness(
    db,
    rows.map(({ id }) => id),
  );
  return rows.map(({ withdrawnWhy: why, withdrawnAt: at, withdrawnBy: by, ...row }) => ({
    ...row,
    cone: row.cone as Cone,
    witness: stood.get(row.id) ?? [],
    withdrawn: why !== null && at !== null && by !== null ? { why, at, by } : null,
  }));
}
