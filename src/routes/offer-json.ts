import { mergeRows } from "../../views/offers/merge.tsx";
import type { Comparison } from "../db/comparisons.ts";
import type { OfferMerge } from "../db/offer-merges.ts";
import type { FoundOffer } from "../db/offers.ts";
import { comparisonJson } from "./compare-json.ts";

/** An offer as lists tell it. */
export const offerJson = (offer: FoundOffer) => ({
  id: offer.id,
  recipe: { slug: offer.recipe.slug, name: offer.recipe.name },
  from: { slug: offer.from.slug, name: offer.from.name, number: offer.from.number },
  base: { slug: offer.base.slug, name: offer.base.name, number: offer.base.number },
  why: offer.why,
  by: offer.by,
  at: offer.at,
  answer: offer.answer,
});

/**
 * An offer with what it would change. A row of the merge whose `take` is null has to be chosen: its
 * `path` names it in an answer.
 */
export const offerSheetJson = (offer: FoundOffer, merge: OfferMerge, comparison: Comparison) => ({
  ...offerJson(offer),
  basedOn: merge.head.number,
  merge: mergeRows(merge),
  comparison: comparisonJson(comparison),
});
