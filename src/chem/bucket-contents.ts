import { Decimal } from "decimal.js";

/** What happened to what is in a bucket; `dryGrams` is what a reading of the stirred slurry says. */
export type Happening<Powder> =
  | { kind: "put in"; powders: readonly Powder[] }
  | { kind: "measured"; dryGrams: Decimal }
  | { kind: "emptied" };

export type Contents<Powder> = {
  /** As they went in, each with what is left of it in grams. */
  powders: Powder[];
  dryGrams: Decimal;
  /** What had to be taken as so, a sentence each. */
  assumed: string[];
};

/**
 * What is in a bucket, from what happened to it, oldest first. What is put in adds to what is there.
 * Glaze is used stirred, so a reading scales all of it by one factor: the dry powder that it tells
 * over what went in, and never above 1, since a reading makes no powder. Of several readings between
 * two mixes the newest counts; without one everything is taken to be still there. Common practice,
 * no source.
 *
 * Worked number: 400 g of feldspar and 600 g of quartz, of which a reading finds 500 g, are 200 g
 * and 300 g. With the same batch again they are 600 g and 900 g, 1500 g in all.
 */
export function contentsOf<Powder extends { grams: Decimal }>(
  happenings: readonly Happening<Powder>[],
): Contents<Powder> {
  let powders: Powder[] = [];
  let measured: Decimal | null = null;
  let toppedUp = false;
  for (const happening of happenings) {
    if (happening.kind === "emptied") {
      powders = [];
      measured = null;
      toppedUp = false;
    } else if (happening.kind === "measured") {
      measured = happening.dryGrams;
    } else if (happening.powders.length > 0) {
      toppedUp ||= powders.length > 0 && measured === null;
      powders = [...left(powders, measured), ...happening.powders];
      measured = null;
    }
  }
  const now = left(powders, measured);
  const assumed = [
    ...(toppedUp ? [notMeasuredBefore] : []),
    ...(powders.length > 0 && measured === null ? [notMeasuredSince] : []),
  ];
  return { powders: now, dryGrams: sumOf(now), assumed };
}

const notMeasuredBefore =
  "Nobody measured it before it was topped up: all that was in it is taken to have been there still.";

const notMeasuredSince =
  "Nobody has measured it since it was last mixed: all that went in is taken to be there still.";

function left<Powder extends { grams: Decimal }>(
  powders: readonly Powder[],
  measured: Decimal | null,
): Powder[] {
  const wentIn = sumOf(powders);
  if (measured === null || measured.gte(wentIn)) return [...powders];
  return powders.map((powder) => ({
    ...powder,
    grams: powder.grams.times(measured).div(wentIn),
  }));
}

/**
 * Powders of one key put together, in the order in which each key came first.
 *
 * Worked number: 400 g and 100 g of one key are 500 g.
 */
export function together<Powder extends { grams: Decimal }>(
  powders: readonly Powder[],
  keyOf: (powder: Powder) => string,
): Powder[] {
  const byKey = new Map<string, Powder>();
  for (const powder of powders) {
    const known = byKey.get(keyOf(powder));
    byKey.set(keyOf(powder), known ? { ...known, grams: known.grams.plus(powder.grams) } : powder);
  }
  return [...byKey.values()];
}

const sumOf = (powders: readonly { grams: Decimal }[]): Decimal =>
  Decimal.sum(0, ...powders.map(({ grams }) => grams));
