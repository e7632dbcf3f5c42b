import type { Decimal } from "decimal.js";
import { desc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { materialGravities, people } from "./schema/index.ts";

/** The specific gravity of a dry powder, and who says so. */
export type DryGravity = {
  gravity: Decimal;
  source: string;
  by: { id: string; name: string };
  at: Date;
};

/** What counts for each powder that has one: material id → its newest dry gravity. */
export async function findDryGravities(
  db: Db,
  materialIds: readonly string[],
): Promise<Map<string, DryGravity>> {
  if (materialIds.length === 0) return new Map();
  const { materialId, gravity, source, at, id } = materialGravities;
  const rows = await db
    .selectDistinctOn([materialId], {
      materialId,
      gravity,
      source,
      by: { id: people.id, name: people.name },
      at,
    })
    .from(materialGravities)
    .innerJoin(people, eq(people.id, materialGravities.by))
    .where(inArray(materialId, [...new Set(materialIds)]))
    .orderBy(materialId, desc(id));
  return new Map(rows.map(({ materialId, ...found }) => [materialId, found]));
}

/** Lines of powders, each with its powder's dry gravity where one is on record. */
export async function withDryGravities<Line>(
  db: Db,
  lines: readonly Line[],
  materialIdOf: (line: Line) => string | undefined,
): Promise<(Line & { drySpecificGravity: Decimal | undefined })[]> {
  const ids = lines.flatMap((line) => materialIdOf(line) ?? []);
  const gravities = await findDryGravities(db, ids);
  return lines.map((line) => ({
    ...line,
    drySpecificGravity: gravities.get(materialIdOf(line) ?? "")?.gravity,
  }));
}

/** Puts a dry gravity of a powder on record; from now on it is the one that counts. */
export async function addDryGravity(
  db: Db,
  given: Act & { by: string; materialId: string; gravity: Decimal; source: string },
): Promise<void> {
  const { materialId, gravity, by, at } = given;
  await db.transaction(async (tx) => {
    await tx.insert(materialGravities).values({ id: uuidv7(), ...given });
    const detail = { gravity: gravity.toFixed() };
    await appendEvent(
      tx,
      { by, at },
      { kind: "dry gravity added", subject: "material", subjectId: materialId, detail },
    );
  });
}
