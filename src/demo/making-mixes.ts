import { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { openBucket } from "../db/bucket-keeping.ts";
import { listBuckets } from "../db/buckets.ts";
import type { Db } from "../db/client.ts";
import { finishMix } from "../db/mix-ends.ts";
import { listMixLots } from "../db/mix-lots.ts";
import { openMix } from "../db/mix-opening.ts";
import { tickLine } from "../db/mix-ticking.ts";
import { findOpenMix, type MixLine, readMix } from "../db/mixes.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoMix, demoMixes } from "./mixes.ts";

/** What was weighed into the demo's buckets, and what came of it. */
export const mixEntries = (): Entry[] =>
  demoMixes.flatMap((mix) => [
    entry(mix.at, weigh(mix)),
    ...(mix.finished
      ? [
          entry(mix.finished.at, finish(mix)),
          entry(mix.finished.proved.at, open(mix, mix.finished.proved.why)),
        ]
      : []),
  ]);

const weigh =
  (mix: DemoMix): Entry["happens"] =>
  async ({ db, ids }, at) => {
    const by = known(ids, mix.by);
    const bucketId = await bucketOf(db, mix, { by, at });
    const fill = { litres: new Decimal(mix.litres), specificGravity: new Decimal(mix.gravity) };
    const scaleGrams = new Decimal(1);
    const opened = await openMix(db, { bucketId, fill, scaleGrams, by, at });
    if (opened.kind !== "opened") throw new Error(`${mix.bucket}: ${JSON.stringify(opened)}`);
    const { lines } = (await readMix(db, opened.id)) ?? { lines: [] };
    const weighed = lines.slice(0, mix.lines);
    for (const [place, line] of weighed.entries()) {
      const who = known(ids, mix.weighed[place % mix.weighed.length] ?? mix.by);
      const isLast = place === weighed.length - 1;
      const grams = line.grams.times((isLast && mix.timesTooMuch) || 1).toDecimalPlaces(0);
      const put = { mixId: opened.id, n: line.n, grams, lotId: await lotOf(db, line, at) };
      const later = new Date(at.getTime() + (place + 1) * 4 * 60_000);
      const ticked = await tickLine(db, { ...put, key: uuidv7(), adds: false, by: who, at: later });
      if (ticked.kind !== "ticked") throw new Error(`${mix.bucket}: ${ticked.kind}`);
    }
  };

const finish =
  (mix: DemoMix): Entry["happens"] =>
  async ({ db, ids }, at) => {
    const by = known(ids, mix.by);
    const mixId = await findOpenMix(db, await bucketOf(db, mix, { by, at }));
    const { waterGrams } = (mixId && (await readMix(db, mixId))) || {};
    if (!mixId || !waterGrams) throw new Error(`${mix.bucket} has no open mix`);
    const ended = await finishMix(db, { mixId, waterGrams, by, at });
    if (ended.kind !== "ended") throw new Error(`${mix.bucket}: ${ended.kind}`);
  };

const open =
  (mix: DemoMix, why: string): Entry["happens"] =>
  async ({ db, ids }, at) => {
    const by = known(ids, mix.by);
    const bucketId = await bucketOf(db, mix, { by, at });
    const opened = await openBucket(db, { bucketId, why, by, at });
    if (opened.kind !== "opened") throw new Error(`${mix.bucket}: ${opened.because.join(" ")}`);
  };

async function bucketOf(
  db: Db,
  { bucket }: DemoMix,
  { by, at }: { by: string; at: Date },
): Promise<string> {
  const reader = { id: by, role: "manager" } as const;
  const { items } = await listBuckets(db, { reader, now: at, limit: 100 });
  const found = items.find(({ name }) => name === bucket);
  if (!found) throw new Error(`${bucket} is not filled yet`);
  return found.id;
}

/** The bag that was bought first, of those on record by then; null where nobody bought one. */
async function lotOf(db: Db, { material }: MixLine, at: Date): Promise<string | null> {
  const today = at.toISOString().slice(0, 10);
  const lots = await listMixLots(db, { materialIds: [material.id], used: new Set(), today });
  return lots[0]?.id ?? null;
}
