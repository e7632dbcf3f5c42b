import { v7 as uuidv7 } from "uuid";
import { mergeRows } from "../../views/offers/merge.tsx";
import { OfferPage } from "../../views/offers/page.tsx";
import { mergedBase } from "../chem/merge-lines.ts";
import { type ComparedSide, type Comparison, comparisonOf, findSide } from "../db/comparisons.ts";
import { findMerge, type OfferMerge } from "../db/offer-merges.ts";
import type { FoundOffer } from "../db/offers.ts";
import type { Typed } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { comparisonJson } from "./compare-json.ts";
import { offerJson } from "./offer-json.ts";

/** An offer beside the recipe's head, with all that its page shows. */
export type OfferSheet = {
  offer: FoundOffer;
  /** The recipe's head, and what is offered. */
  left: ComparedSide;
  right: ComparedSide;
  comparison: Comparison;
  merge: OfferMerge;
};

export async function findOfferSheet(c: Ctx, offer: FoundOffer): Promise<OfferSheet | undefined> {
  const { db, viewer: reader, now } = c.var;
  const { recipe, from } = offer;
  const left = await findSide(db, { slug: recipe.slug, reader, now });
  const right = await findSide(db, { slug: from.slug, number: from.number, reader, now });
  const merge = left && (await findMerge(db, { offer, number: left.revision.number }));
  if (!left || !right || !merge) return undefined;
  return { offer, left, right, merge, comparison: comparisonOf(left.revision, right.revision) };
}

/**
 * An offer with what it would change. A row of the merge whose `take` is null has to be chosen: its
 * `path` names it in an answer. `base` is what the base would total, null until that is chosen.
 */
export const offerSheetJson = ({ offer, merge, comparison }: OfferSheet) => ({
  ...offerJson(offer),
  basedOn: merge.head.number,
  merge: mergeRows(merge),
  base: mergedBase(merge.lines)?.toFixed() ?? null,
  comparison: comparisonJson(comparison),
});

type Answered = { typed?: Typed; faults?: readonly Fault[]; stale?: Stale | null };

type Stale = { says: string; left: ComparedSide; right: ComparedSide; comparison: Comparison };

/** The page of an offer, with what was typed and chosen still in it. */
export const offerPage = (
  sheet: OfferSheet,
  { typed = {}, faults = [], stale = null }: Answered = {},
) => ({
  page: { title: `${sheet.offer.from.name} offered`, here: "library" } as const,
  view: () =>
    OfferPage({
      ...sheet,
      mayAnswer: sheet.left.recipe.mayRevise,
      typed: (path) => typedText(typed, path),
      faults,
      stale,
      idempotencyKey: uuidv7(),
    }),
});

/** What was published while an offer was being looked at; null where the old head cannot be told. */
export async function staleSides(
  c: Ctx,
  { left: right }: OfferSheet,
  basedOn: number,
): Promise<Stale | null> {
  const { db, viewer: reader, now } = c.var;
  const { slug, name } = right.recipe;
  const left = await findSide(db, { slug, number: basedOn, reader, now });
  if (!left) return null;
  const { author, number } = right.revision;
  const says = `${author.name} published revision ${number} of ${name} meanwhile. Nothing was taken in: look at it, and answer again.`;
  return { says, left, right, comparison: comparisonOf(left.revision, right.revision) };
}
