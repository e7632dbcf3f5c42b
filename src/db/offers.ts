import { and, desc, eq, inArray, or, type SQL } from "drizzle-orm";
import { alias } from "drizzle-orm/pg-core";
import { validate as isUuid } from "uuid";
import type { Db } from "./client.ts";
import { type Reader, readableBy } from "./recipes.ts";
import { offerAnswers, offers, people, recipes, revisions } from "./schema/index.ts";

type RevisionPlace = { revisionId: string; slug: string; name: string; number: number };

/** Taken in, with the revision that it became, or turned down with the reason. */
export type OfferAnswer = {
  accepted: boolean;
  why: string;
  by: { id: string; name: string };
  at: Date;
  /** The revision that it became; null where it was turned down. */
  revision: number | null;
};

/** A fork's revision offered back to the recipe that it came from. */
export type FoundOffer = {
  id: string;
  recipe: { id: string; slug: string; name: string };
  from: RevisionPlace & { recipeId: string };
  /** What both sides came from: the fork's origin, or what of the fork was last taken in. */
  base: RevisionPlace;
  why: string;
  by: { id: string; name: string };
  at: Date;
  answer: OfferAnswer | null;
};

/** An offer, where the reader may know of both recipes. */
export async function findOffer(
  db: Db,
  { id, reader }: { id: string; reader: Reader },
): Promise<FoundOffer | undefined> {
  if (!isUuid(id)) return undefined;
  const [offer] = await readOffers(db, eq(offers.id, id), reader);
  return offer;
}

/** Offers made to a recipe, newest first; with `orFrom` also those that it was offered in itself. */
export function listOffers(
  db: Db,
  { recipeId, orFrom, reader }: { recipeId: string; orFrom?: boolean; reader: Reader },
): Promise<FoundOffer[]> {
  const made = eq(offers.recipeId, recipeId);
  const among = orFrom ? or(made, eq(revisions.recipeId, recipeId)) : made;
  return readOffers(db, among, reader);
}

const answerers = alias(people, "answerers");
const became = alias(revisions, "became");
const bases = alias(revisions, "bases");

async function readOffers(db: Db, which: SQL | undefined, reader: Reader): Promise<FoundOffer[]> {
  const rows = await db
    .select({
      offer: offers,
      by: people.name,
      from: { recipeId: revisions.recipeId, number: revisions.number },
      base: { recipeId: bases.recipeId, number: bases.number },
      answer: offerAnswers,
      answeredBy: answerers.name,
      becameNumber: became.number,
    })
    .from(offers)
    .innerJoin(people, eq(people.id, offers.by))
    .innerJoin(revisions, eq(revisions.id, offers.revisionId))
    .innerJoin(bases, eq(bases.id, offers.baseId))
    .leftJoin(offerAnswers, eq(offerAnswers.offerId, offers.id))
    .leftJoin(answerers, eq(answerers.id, offerAnswers.by))
    .leftJoin(became, eq(became.id, offerAnswers.revisionId))
    .where(which)
    .orderBy(desc(offers.id));
  const places = await findPlaces(
    db,
    rows.flatMap(({ offer, from, base }) => [offer.recipeId, from.recipeId, base.recipeId]),
    reader,
  );
  return rows.flatMap(({ offer, by, from, base, answer, answeredBy, becameNumber }) => {
    const recipe = places.get(offer.recipeId);
    const fork = places.get(from.recipeId);
    const origin = places.get(base.recipeId);
    if (!recipe || !fork || !origin) return [];
    return [
      {
        id: offer.id,
        recipe,
        from: { ...from, revisionId: offer.revisionId, slug: fork.slug, name: fork.name },
        base: {
          revisionId: offer.baseId,
          number: base.number,
          slug: origin.slug,
          name: origin.name,
        },
        why: offer.why,
        by: { id: offer.by, name: by },
        at: offer.at,
        answer: answer && {
          accepted: answer.accepted,
          why: answer.why,
          by: { id: answer.by, name: answeredBy ?? "" },
          at: answer.at,
          revision: becameNumber,
        },
      },
    ];
  });
}

/** Recipes by their ids, as far as the reader may know of them. */
async function findPlaces(db: Db, ids: readonly string[], reader: Reader) {
  if (ids.length === 0) return new Map<string, FoundOffer["recipe"]>();
  const rows = await db
    .select({ id: recipes.id, slug: recipes.slug, name: recipes.name })
    .from(recipes)
    .where(and(inArray(recipes.id, [...new Set(ids)]), readableBy(reader)));
  return new Map(rows.map((row) => [row.id, row]));
}
