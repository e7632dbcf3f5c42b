import { type ConeEstimation, coneEstimateOfLog } from "../chem/cone-estimate.ts";
import type { Db } from "../db/client.ts";
import { readFiringLog } from "../db/firing-logs.ts";

/** A log never changes, so what it comes to is worked out once; the oldest of many are forgotten. */
const known = new Map<string, ConeEstimation>();
const mostKnown = 500;

/** Which cone all readings of a log came to. */
export async function estimateOfLog(db: Db, { logId }: { logId: string }): Promise<ConeEstimation> {
  const before = known.get(logId);
  if (before) return before;
  const estimation = coneEstimateOfLog(await readFiringLog(db, { logId }));
  const [oldest] = known.keys();
  if (known.size >= mostKnown && oldest !== undefined) known.delete(oldest);
  known.set(logId, estimation);
  return estimation;
}
