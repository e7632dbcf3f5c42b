import { asc, inArray } from "drizzle-orm";
import type { Cone } from "../chem/cones.ts";
import type { Db } from "./client.ts";
import { witnessCones } from "./schema/index.ts";

/** A cone that stood beside the ware, and how far from upright it bent. */
export type WitnessCone = { cone: Cone; bendDegrees: number; place: string };

/** The cones that stood in some firings, each in the order put down: firing id → cones, none where none stood. */
export async function listWitness(
  db: Db,
  firingIds: readonly string[],
): Promise<Map<string, WitnessCone[]>> {
  const stood = new Map<string, WitnessCone[]>(firingIds.map((id) => [id, []]));
  if (firingIds.length === 0) return stood;
  const { firingId, position } = witnessCones;
  const rows = await db
    .select()
    .from(witnessCones)
    .where(inArray(firingId, [...stood.keys()]))
    .orderBy(asc(firingId), asc(position));
  // The schema bounds its shape; it was taken from the list of cones.
  for (const { firingId: of, cone, bendDegrees, place } of rows)
    stood.get(of)?.push({ cone: cone as Cone, bendDegrees, place });
  return stood;
}
