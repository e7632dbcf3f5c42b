import { desc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { dataSheets, people, signals } from "./schema/index.ts";

export { signals };

/** The signal word of a sheet, or that it has none. */
export type Signal = (typeof signals)[number];

/** What a supplier's safety data sheet says, in its own words. */
export type GivenSheet = {
  signal: Signal;
  statements: string[];
  precautions: string[];
  issuedOn: string | null;
  source: string;
};

export type DataSheet = GivenSheet & { by: { id: string; name: string }; at: Date };

/** What counts for each powder that has one: material id → its newest sheet. */
export async function findDataSheets(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, DataSheet>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, id } = dataSheets;
  const rows = await db
    .selectDistinctOn([materialId], {
      materialId,
      signal: dataSheets.signal,
      statements: dataSheets.statements,
      precautions: dataSheets.precautions,
      issuedOn: dataSheets.issuedOn,
      source: dataSheets.source,
      by: { id: people.id, name: people.name },
      at: dataSheets.at,
    })
    .from(dataSheets)
    .innerJoin(people, eq(people.id, dataSheets.by))
    .where(inArray(materialId, [...new Set(materialIds)]))
    .orderBy(materialId, desc(id));
  return new Map(rows.map(({ materialId, ...sheet }) => [materialId, sheet]));
}

/** Puts a sheet of a powder on record; from now on it is the one that counts. */
export async function addDataSheet(
  db: Db,
  given: Act & GivenSheet & { by: string; materialId: string },
): Promise<void> {
  const { materialId, signal, by, at } = given;
  const id = uuidv7();
  await db.transaction(async (tx) => {
    await tx.insert(dataSheets).values({ id, ...given });
    const detail = { sheet: id, signal };
    await appendEvent(
      tx,
      { by, at },
      { kind: "data sheet added", subject: "material", subjectId: materialId, detail },
    );
  });
}
