import { Decimal } from "decimal.js";

/** A pack that can be bought, by the places of its supplier and of its powder. */
export type PackOnOffer = { supplier: number; material: number; grams: Decimal; price: Decimal };

/** What a supplier takes for sending; nothing where what is bought comes to `freeFrom`. */
export type Carriage = { carriage: Decimal; freeFrom: Decimal | null };

/** What is wanted and what can be bought. All prices are in one currency. */
export type Buying = {
  packs: readonly PackOnOffer[];
  suppliers: readonly Carriage[];
  /** Grams of each powder that are there and may be used. */
  there: readonly Decimal[];
  /** What each wish takes of each powder, grams; those that come first go first. */
  wishes: readonly (readonly Decimal[])[];
};

/**
 * What has to be bought of each powder for some of the wishes, grams: what they take together less
 * what is there. Less than nothing there counts as nothing.
 *
 * Worked number: 3000 g and 1500 g wanted with 700 g there are 3800 g to buy.
 */
export const missingFor = (
  { there, wishes }: Pick<Buying, "there" | "wishes">,
  met: readonly boolean[],
): Decimal[] =>
  there.map((grams, material) => {
    const wanted = wishes.filter((_, place) => met[place]).map((wish) => wish[material] ?? 0);
    return Decimal.max(0, Decimal.sum(0, ...wanted).minus(Decimal.max(0, grams)));
  });

/** What is bought of one supplier. `toFree` is how much more would be sent without carriage. */
export type Bill = {
  supplier: number;
  subtotal: Decimal;
  carriage: Decimal;
  toFree: Decimal | null;
  total: Decimal;
};

/**
 * What so many of each pack come to, by supplier and in all, to the last digit. Of whom nothing is
 * bought there is no bill.
 *
 * Worked number: 3 packs at 12.50 with a carriage of 6.95 and none from 50 on are 37.50 and 6.95,
 * 44.45, and 12.50 short of it; with one pack more they are 50.00.
 */
export function billsOf(
  { packs, suppliers }: Pick<Buying, "packs" | "suppliers">,
  counts: readonly number[],
): { bills: Bill[]; total: Decimal } {
  const bills = suppliers.flatMap(({ carriage, freeFrom }, supplier) => {
    const own = packs.flatMap((pack, place) => {
      const count = counts[place] ?? 0;
      return pack.supplier === supplier && count > 0 ? [pack.price.times(count)] : [];
    });
    if (own.length === 0) return [];
    const subtotal = Decimal.sum(0, ...own);
    const isFree = freeFrom !== null && subtotal.gte(freeFrom);
    const sent = isFree ? new Decimal(0) : carriage;
    const toFree = freeFrom === null || sent.isZero() ? null : freeFrom.minus(subtotal);
    return [{ supplier, subtotal, carriage: sent, toFree, total: subtotal.plus(sent) }];
  });
  return { bills, total: Decimal.sum(0, ...bills.map(({ total }) => total)) };
}

/** Whether so many of each pack hold at least what is missing of every powder. */
export const isEnough = (
  packs: readonly PackOnOffer[],
  counts: readonly number[],
  missing: readonly Decimal[],
): boolean =>
  boughtOf(packs, counts, missing.length).every((grams, material) =>
    grams.gte(missing[material] ?? 0),
  );

/** Grams of each of so many powders in the packs. */
export const boughtOf = (
  packs: readonly PackOnOffer[],
  counts: readonly number[],
  materials: number,
): Decimal[] =>
  Array.from({ length: materials }, (_, material) =>
    Decimal.sum(
      0,
      ...packs.flatMap((pack, place) =>
        pack.material === material ? [pack.grams.times(counts[place] ?? 0)] : [],
      ),
    ),
  );
