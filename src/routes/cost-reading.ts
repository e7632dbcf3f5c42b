import { Decimal } from "decimal.js";
import { dryGravityOf, dryGravityWords } from "../chem/blend-slurries.ts";
import type { Price } from "../chem/cost.ts";
import { costOfDry, type DryCost, dryInLitre } from "../chem/dry-cost.ts";
import { faultsOfSlurry } from "../chem/slurry.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import { findCurrency, findNewestPrices } from "../db/newest-prices.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";

type Powder = { id: string; slug: string; name: string };

/** So much of a powder; `paid` is what was paid for this bag, where anybody knows. */
export type Weighed = { material: Powder; grams: Decimal; paid?: Price | null };

export type CostedLine = { material: Powder; name: string; grams: Decimal; price: Price | null };

/** What powders cost; null where they weigh nothing, or where no price at all is on record. */
export type Costed = { currency: string; cost: DryCost<CostedLine> };

/** What powders cost by what was paid for them, or else by their newest prices in one currency. */
export async function costed(c: Ctx, weighed: readonly Weighed[]): Promise<Costed | null> {
  const { db, studio } = c.var;
  const currency = await findCurrency(db, studio);
  if (!currency) return null;
  const materialIds = weighed.map(({ material }) => material.id);
  const newest = await findNewestPrices(db, { materialIds, currency });
  const cost = costOfDry(
    weighed.map(({ material, grams, paid }) => ({
      ...{ material, name: material.name, grams },
      price: paid?.currency === currency ? paid : (newest.get(material.id) ?? null),
    })),
  );
  return cost && { currency, cost };
}

/** A litre of slurry of a gravity, and what its dry powder costs. */
export type LitreCost = {
  specificGravity: Decimal;
  drySpecificGravity: Decimal;
  dryGrams: Decimal;
  cost: Decimal | null;
  says: string;
};

/** What a litre of slurry holds and costs; a gravity that none can have is a fault. */
export async function litreOf(
  c: Ctx,
  weighed: readonly Weighed[],
  { gravity, perKilogram }: { gravity: Decimal; perKilogram: Decimal | undefined },
): Promise<{ litre: LitreCost | null; faults: Fault[] }> {
  const found = await withDryGravities(c.var.db, weighed, ({ material }) => material.id);
  const powders = found.map(({ grams, drySpecificGravity }) => ({
    amount: grams,
    drySpecificGravity,
  }));
  const { value: dry } = dryGravityOf(powders);
  const request = { specificGravity: gravity, drySpecificGravity: dry };
  const [fault] = faultsOfSlurry({ ...request, litres: new Decimal(1) });
  if (fault) return { litre: null, faults: [{ path: "gravity", says: fault.says }] };
  const dryGrams = dryInLitre(gravity, dry);
  return {
    litre: {
      ...{ ...request, dryGrams, says: dryGravityWords(powders) },
      cost: perKilogram ? perKilogram.times(dryGrams).div(1000) : null,
    },
    faults: [],
  };
}
