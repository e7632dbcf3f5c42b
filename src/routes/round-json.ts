import { isWithin } from "../chem/bands.ts";
import { driftOf } from "../chem/colour-comparing.ts";
import type { RoundStop } from "../db/rounds.ts";
import { cautionsOf, newerThan, stateOf } from "./bucket-json.ts";

const oneDay = 24 * 60 * 60 * 1000;

/** When the day of a moment began, in UTC. */
export const dayBegan = (now: Date): Date => new Date(Math.floor(now.getTime() / oneDay) * oneDay);

/** What a round says of one bucket, for its page and its JSON. */
export function stopOf(stop: RoundStop, now: Date) {
  const { bucket, litres, lastStirred, measured, directions, filledAt, proofs, tick } = stop;
  const { inOrder, drift } = driftOf(proofs);
  const last = inOrder.at(-1);
  const difference = drift?.later.findLast(({ tile }) => tile.id === last?.id)?.difference;
  const gravity = directions?.gravity ?? null;
  const flow = directions?.flow ?? null;
  const { specificGravity = null, flowSeconds = null } = measured ?? {};
  return {
    id: bucket.id,
    name: bucket.name,
    recipe: bucket.recipe,
    revision: bucket.number,
    is: stateOf(bucket)?.is ?? ("open" as const),
    litres,
    daysSinceStirred: lastStirred && daysBetween(lastStirred, now),
    gravity: {
      last: specificGravity,
      target: gravity,
      within: specificGravity && gravity && isWithin(specificGravity, gravity),
    },
    flow: {
      last: flowSeconds,
      target: flow,
      within: flowSeconds && flow && isWithin(flowSeconds, flow),
    },
    measuredAt: measured?.at ?? null,
    proof: last
      ? {
          tile: last.id,
          on: last.on,
          sinceMix: last.on >= dayBegan(filledAt),
          deltaE: difference?.kind === "differs" ? difference.deltaE : null,
        }
      : null,
    flags: [...cautionsOf(bucket), ...[newerThan(bucket), pastShelfLife(stop, now)]].filter(
      (flag) => flag !== null,
    ),
    tick: tick && { by: tick.by, at: tick.at, stirred: tick.stirred, note: tick.note },
  };
}

export type Stop = ReturnType<typeof stopOf>;

const daysBetween = (from: Date, to: Date): number =>
  Math.max(0, Math.round((dayBegan(to).getTime() - dayBegan(from).getTime()) / oneDay));

function pastShelfLife({ directions, filledAt }: RoundStop, now: Date): string | null {
  if (!directions?.keepsMonths) return null;
  const until = new Date(filledAt);
  until.setUTCMonth(until.getUTCMonth() + directions.keepsMonths);
  const day = until.toISOString().slice(0, 10);
  return until < now ? `Past its shelf life since ${day}: look for rot and crystals.` : null;
}

/** A stop as JSON: decimals as strings. */
export const stopJson = ({ gravity, flow, litres, proof, ...stop }: Stop) => ({
  ...stop,
  litres: litres.toFixed(),
  gravity: measureJson(gravity),
  flow: measureJson(flow),
  proof: proof && { ...proof, on: proof.on.toISOString().slice(0, 10) },
});

const measureJson = ({ last, target, within }: Stop["gravity"]) => ({
  last: last?.toFixed() ?? null,
  target: target && { low: target.low.toFixed(), high: target.high.toFixed() },
  within,
});
