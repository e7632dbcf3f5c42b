import { asc, eq, inArray } from "drizzle-orm";
import type { Db } from "./client.ts";
import { people, revisionCoauthors } from "./schema/index.ts";

export type Coauthor = { id: string; name: string };

/** Who wrote each revision beside its author: revision id → people. */
export async function listCoauthors(
  db: Db,
  revisionIds: readonly string[],
): Promise<Map<string, Coauthor[]>> {
  const coauthors = new Map<string, Coauthor[]>();
  if (revisionIds.length === 0) return coauthors;
  const { revisionId, personId } = revisionCoauthors;
  const rows = await db
    .select({ revisionId, id: personId, name: people.name })
    .from(revisionCoauthors)
    .innerJoin(people, eq(people.id, personId))
    .where(inArray(revisionId, [...revisionIds]))
    .orderBy(asc(revisionId), asc(personId));
  for (const row of rows) {
    const { id, name } = row;
    coauthors.set(row.revisionId, [...(coauthors.get(row.revisionId) ?? []), { id, name }]);
  }
  return coauthors;
}

/** Keeps who wrote a revision beside its author, in the transaction that publishes it. */
export async function keepCoauthors(
  tx: Db,
  { revisionId, by, coauthors }: { revisionId: string; by: string; coauthors: readonly string[] },
): Promise<void> {
  const others = [...new Set(coauthors)].filter((id) => id !== by);
  if (others.length === 0) return;
  await tx.insert(revisionCoauthors).values(others.map((personId) => ({ revisionId, personId })));
}
