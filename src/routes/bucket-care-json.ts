import type { BucketAddition } from "../db/bucket-additions.ts";
import type { FoundDirections } from "../db/bucket-directions.ts";
import type { BucketCare, WeighedReading } from "./bucket-care.ts";

/** A reading: decimals as typed, and what it says of the dry powder as numbers, k = 2. */
export const readingJson = ({ dry, ...reading }: WeighedReading) => ({
  ...reading,
  specificGravity: reading.specificGravity?.toFixed() ?? null,
  litres: reading.litres?.toFixed() ?? null,
  celsius: reading.celsius?.toFixed() ?? null,
  flowSeconds: reading.flowSeconds?.toFixed() ?? null,
  coatMm: reading.coatMm?.toFixed() ?? null,
  dry: dry && {
    dryGrams: dry.dryGrams,
    dryPlusMinus: dry.dryPlusMinus,
    drySharePercent: dry.drySharePercent,
    says: dry.says,
  },
});

export const additionJson = ({ amount, ...addition }: BucketAddition) => ({
  ...addition,
  amount: amount.toFixed(),
});

/** How a bucket should be and how to use it, as its JSON tells it; null where nobody said. */
export const directionsJson = ({ gravity, flow, coat, ...said }: FoundDirections) => ({
  gravity: bandJson(gravity),
  flow: bandJson(flow),
  coat: bandJson(coat),
  ...said,
  dipSeconds: said.dipSeconds?.toFixed() ?? null,
  footMm: said.footMm?.toFixed() ?? null,
});

const bandJson = (band: FoundDirections["gravity"]) =>
  band && { low: band.low.toFixed(), high: band.high.toFixed() };

/** What a bucket's own JSON tells of its care beside its standing. */
export const careJson = (care: BucketCare) => ({
  directions: care.directions && directionsJson(care.directions),
  readings: care.readings.map(readingJson),
  furtherReadings: care.furtherReadings,
  advice: care.advice,
  additions: care.additions.map(additionJson),
  drySpecificGravity: care.powders.dryGravity.value.toDecimalPlaces(3).toFixed(),
  dissolves: care.powders.dissolves,
});
