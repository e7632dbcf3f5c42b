import { desc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { discontinuations, people } from "./schema/index.ts";

/** One word on whether a material is sold: `since` is a calendar day. */
export type Discontinuation = {
  stillSold: boolean;
  since: string;
  why: string;
  at: Date;
  by: { id: string; name: string };
};

/** Whether each material is still sold, where that was ever in question: material id → answer. */
export async function findStillSold(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, boolean>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, stillSold, id } = discontinuations;
  const rows = await db
    .selectDistinctOn([materialId], { materialId, stillSold })
    .from(discontinuations)
    .where(inArray(materialId, [...materialIds]))
    .orderBy(materialId, desc(id));
  return new Map(rows.map((row) => [row.materialId, row.stillSold]));
}

/** What was ever said about whether a material is sold, newest first: the first holds. */
export async function listDiscontinuations(db: Db, materialId: string): Promise<Discontinuation[]> {
  const rows = await db
    .select({ said: discontinuations, by: people.name })
    .from(discontinuations)
    .innerJoin(people, eq(people.id, discontinuations.by))
    .where(eq(discontinuations.materialId, materialId))
    .orderBy(desc(discontinuations.id));
  return rows.map(({ said, by }) => ({
    stillSold: said.stillSold,
    since: said.since,
    why: said.why,
    at: said.at,
    by: { id: said.by, name: by },
  }));
}

type Saying = Act & { by: string; materialId: string; why: string };

/** Says that a material is no longer sold since a day; said again, the newer word holds. */
export async function discontinue(
  db: Db,
  { since, ...saying }: Saying & { since: string },
): Promise<void> {
  await db.transaction((tx) => say(tx, { ...saying, since, stillSold: false }));
}

export type SoldAgain = { kind: "sold-again" } | { kind: "still-sold" };

/** Says that a material is sold again from today; `still-sold` where nothing said otherwise. */
export async function endDiscontinuation(db: Db, saying: Saying): Promise<SoldAgain> {
  return db.transaction(async (tx) => {
    const { materialId, at } = saying;
    const sold = (await findStillSold(tx, [materialId])).get(materialId) ?? true;
    if (sold) return { kind: "still-sold" };
    await say(tx, { ...saying, since: at.toISOString().slice(0, 10), stillSold: true });
    return { kind: "sold-again" };
  });
}

async function say(tx: Db, saying: Saying & { since: string; stillSold: boolean }): Promise<void> {
  const { materialId, stillSold, since, why, by, at } = saying;
  await tx
    .insert(discontinuations)
    .values({ id: uuidv7(), materialId, stillSold, since, why, by, at });
  await appendEvent(
    tx,
    { by, at },
    {
      kind: stillSold ? "sold again" : "no longer sold",
      subject: "material",
      subjectId: materialId,
      detail: { since },
    },
  );
}
