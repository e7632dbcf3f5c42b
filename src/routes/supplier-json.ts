import { pricePerGram } from "../chem/cost.ts";
import { moneyText } from "../chem/money-text.ts";
import type { ListedPack, NewPack } from "../db/packs.ts";
import type { BoughtLot } from "../db/price-history.ts";
import type { Terms } from "../db/supplier-terms.ts";
import type { Supplier } from "../db/suppliers.ts";

type Prices = { packs: readonly ListedPack[]; terms: Terms | null; lots: readonly BoughtLot[] };

/** A supplier with all that its page tells. */
export const supplierPricesJson = (
  { slug, name, about, addedAt }: Supplier,
  { packs, terms, lots }: Prices,
) => ({
  ...{ slug, name, about, addedAt },
  terms: terms && termsJson(terms),
  packs: packs.map((pack) => ({ ...packJson(pack), from: pack.from, at: pack.at })),
  lots: lots.map(({ id, material, grams, mark, at, ...price }) => ({
    ...{ id, material, grams: grams.toFixed(), mark, at },
    packGrams: price.packGrams.toFixed(),
    packPrice: moneyText(price.packPrice),
    currency: price.currency,
  })),
});

type Pack = Omit<NewPack, "stillSold" | "materialId"> & {
  material: { slug: string; name: string };
  stillSold?: boolean;
};

export const packJson = ({ material, stillSold = true, ...pack }: Pack) => ({
  material: { slug: material.slug, name: material.name },
  packGrams: pack.packGrams.toFixed(),
  packPrice: moneyText(pack.packPrice),
  currency: pack.currency,
  pricePerKilogram: pricePerGram(pack).times(1000).toDecimalPlaces(4).toFixed(),
  stillSold,
});

export const termsJson = ({ region, carriage, freeFrom, currency, at }: Terms) => ({
  region,
  carriage: moneyText(carriage),
  freeFrom: freeFrom && moneyText(freeFrom),
  currency,
  at,
});
