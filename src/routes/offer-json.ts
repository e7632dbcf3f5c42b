import type { FoundOffer } from "../db/offers.ts";

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
