import type { Decimal } from "decimal.js";
import { pricePerGram } from "../chem/cost.ts";
import type { Costed, LitreCost } from "./cost-reading.ts";

/** Money that a division made, to four decimals. */
const four = (amount: Decimal): string => amount.toDecimalPlaces(4).toFixed();

/** What powders cost, weights and money as decimal strings; `atLeast` where a price is missing. */
export const costJson = (costed: Costed | null, litre: LitreCost | null) => ({
  currency: costed?.currency ?? null,
  grams: costed?.cost.grams.toDecimalPlaces(4).toFixed() ?? null,
  lines: (costed?.cost.lines ?? []).map(({ material, grams, price, cost }) => ({
    material: { slug: material.slug, name: material.name },
    grams: grams.toDecimalPlaces(4).toFixed(),
    pricePerKilogram: price && four(pricePerGram(price).times(1000)),
    cost: cost && four(cost),
  })),
  total: costed && four(costed.cost.known),
  perKilogram: costed && four(costed.cost.perKilogram),
  atLeast: (costed?.cost.without.length ?? 0) > 0,
  without: costed?.cost.without ?? [],
  litre: litre && {
    specificGravity: litre.specificGravity.toFixed(),
    drySpecificGravity: litre.drySpecificGravity.toDecimalPlaces(4).toFixed(),
    dryGrams: litre.dryGrams.toDecimalPlaces(1).toFixed(),
    cost: litre.cost && four(litre.cost),
    says: litre.says,
  },
});
