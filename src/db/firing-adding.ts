import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import type { FoundFiring } from "./firings.ts";
import { firings, witnessCones } from "./schema/index.ts";

type NewFiring = Pick<
  FoundFiring,
  "kind" | "cone" | "startedAt" | "programme" | "witness" | "remark"
>;

/** Puts a firing on record, with the witness cones in the order given. @returns its id. */
export async function addFiring(
  db: Db,
  { kilnId, witness, by, at, ...fired }: NewFiring & Act & { by: string; kilnId: string },
): Promise<string> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const { kind, cone, startedAt, programme, remark } = fired;
    await tx
      .insert(firings)
      .values({ id, kilnId, kind, cone, startedAt, programme, remark, by, at });
    const stood = witness.map(({ cone: name, bendDegrees, place }, position) => ({
      firingId: id,
      position,
      cone: name,
      bendDegrees,
      place,
    }));
    if (stood.length > 0) await tx.insert(witnessCones).values(stood);
    const detail = { kiln: kilnId, kind, cone, witness: witness.length };
    const happening = { kind: "firing added", subject: "firing", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return id;
  });
}
