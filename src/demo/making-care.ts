import { Decimal } from "decimal.js";
import { addAddition } from "../db/bucket-additions.ts";
import { setDirections } from "../db/bucket-directions.ts";
import { addReading } from "../db/bucket-readings.ts";
import { reportBucket } from "../db/bucket-reports.ts";
import { listBuckets } from "../db/buckets.ts";
import { addDryGravity } from "../db/material-gravities.ts";
import { type DemoCare, demoCare, demoGravities, demoReport, demoThinning } from "./care.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";

/** How two of the buckets were kept, and what the powders weigh dry. */
export const careEntries = (): Entry[] => [
  entry("2026-07-17T16:00:00Z", async ({ db, ids, materialIds }, at) => {
    for (const [powder, mineral, gravity] of demoGravities)
      await addDryGravity(db, {
        materialId: known(materialIds, powder),
        gravity: new Decimal(gravity),
        source: `Textbook figure for ${mineral}, from memory`,
        ...{ by: known(ids, "ines"), at },
      });
  }),
  ...demoCare.flatMap((care) => [entry(care.directedAt, direct(care)), ...readings(care)]),
  entry(demoThinning.at, async (making, at) => {
    const { by, millilitres } = demoThinning;
    await addAddition(making.db, {
      ...{ bucketId: await bucketOf(making, tub, at), what: "water", named: "", unit: "ml" },
      ...{ amount: new Decimal(millilitres), by: known(making.ids, by), at },
    });
  }),
  entry(demoReport.at, async (making, at) => {
    const { by, note } = demoReport;
    const bucketId = await bucketOf(making, tub, at);
    const act = { by: known(making.ids, by), at };
    await reportBucket(making.db, { bucketId, trouble: "wrong colour", note, ...act });
  }),
];

const tub = "Slack Water, big tub";

/** The id of a bucket of the demo by its name. */
export async function bucketOf({ db, ids }: Making, name: string, now: Date): Promise<string> {
  const reader = { id: known(ids, "ines"), role: "manager" } as const;
  const { items } = await listBuckets(db, { reader, now, limit: 100 });
  const bucket = items.find((each) => each.name === name);
  if (!bucket) throw new Error(`${name} is not filled yet`);
  return bucket.id;
}

const direct =
  ({ bucket, gravity, flow, dipSeconds, footMm, catchDish }: DemoCare): Entry["happens"] =>
  async (making, at) => {
    await setDirections(making.db, {
      bucketId: await bucketOf(making, bucket, at),
      gravity: { low: new Decimal(gravity[0]), high: new Decimal(gravity[1]) },
      flow: { low: new Decimal(flow[0]), high: new Decimal(flow[1]) },
      coat: { low: new Decimal("0.7"), high: new Decimal(1) },
      bodyId: known(making.bodyIds, "Loft stoneware"),
      bisqueCone: "04",
      dipSeconds: new Decimal(dipSeconds),
      coats: 1,
      footMm: new Decimal(footMm),
      catchDish,
      sieve: "80 mesh, twice",
      stirring: "From the bottom, before each use and every ten minutes",
      keepsMonths: 12,
      ask: "Ines, or whoever keeps the round this week",
      by: known(making.ids, "ines"),
      at,
    });
  };

const readings = ({ bucket, readings: all }: DemoCare): Entry[] =>
  all.map(({ at: when, by, gravity, litres, flow, unstirred, note = "" }) =>
    entry(when, async (making, at) => {
      await addReading(making.db, {
        bucketId: await bucketOf(making, bucket, at),
        specificGravity: new Decimal(gravity),
        litres: new Decimal(litres),
        flowSeconds: flow === undefined ? null : new Decimal(flow),
        ...{ celsius: null, coatMm: null, stirred: !unstirred, note },
        ...{ by: known(making.ids, by), at },
      });
    }),
  );
