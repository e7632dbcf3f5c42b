import { eq } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { witnessCones } from "./schema/index.ts";
import { unsettleFiring } from "./unsettling.ts";
import type { WitnessCone } from "./witness-cones.ts";

/** The most witness cones of one firing. */
export const mostWitness = 32;

export type WitnessAdded = { kind: "added"; position: number } | { kind: "full" };

/** Adds a cone that was read after its firing was put on record, behind those that are there. */
export async function addWitnessCone(
  db: Db,
  {
    firingId,
    cone,
    bendDegrees,
    place,
    by,
    at,
  }: WitnessCone & Act & { by: string; firingId: string },
): Promise<WitnessAdded> {
  return db.transaction(async (tx) => {
    const position = await takeNext(tx, firingId, { cone, bendDegrees, place });
    if (position === undefined) return { kind: "full" };
    await unsettleFiring(tx, firingId);
    const detail = { cone, bendDegrees, position };
    await appendEvent(
      tx,
      { by, at },
      { kind: "witness cone added", subject: "firing", subjectId: firingId, detail },
    );
    return { kind: "added", position };
  });
}

/** Of two who add at once the second waits for the first, and then takes the place behind it. */
async function takeNext(tx: Db, firingId: string, stood: WitnessCone): Promise<number | undefined> {
  for (;;) {
    const position = await tx.$count(witnessCones, eq(witnessCones.firingId, firingId));
    if (position >= mostWitness) return undefined;
    const [taken] = await tx
      .insert(witnessCones)
      .values({ firingId, position, ...stood })
      .onConflictDoNothing()
      .returning({ position: witnessCones.position });
    if (taken) return taken.position;
  }
}
