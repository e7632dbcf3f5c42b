import { eq, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type Choices, findMerge, mergedDraft } from "./offer-merges.ts";
import type { FoundOffer } from "./offers.ts";
import { publishRevision } from "./publishing.ts";
import { offerAnswers, recipes } from "./schema/index.ts";

type Answering = Act & { by: string; offer: FoundOffer; why: string };

export type Declined = { kind: "declined" } | { kind: "answered-before" };

/** Turns an offer down, with the reason. */
export async function declineOffer(db: Db, { offer, why, by, at }: Answering): Promise<Declined> {
  return db.transaction(async (tx) => {
    await holdHead(tx, offer.recipe.id);
    if (await isAnswered(tx, offer.id)) return { kind: "answered-before" };
    await tx
      .insert(offerAnswers)
      .values({ offerId: offer.id, accepted: false, why, revisionId: null, by, at });
    await appendEvent(
      tx,
      { by, at },
      { kind: "offer declined", subject: "offer", subjectId: offer.id },
    );
    return { kind: "declined" };
  });
}

export type Accepted =
  | { kind: "accepted"; number: number }
  | { kind: "answered-before" }
  | { kind: "stale"; head: number }
  | { kind: "open"; lines: string[]; fields: string[] }
  | { kind: "unmixable"; says: string[] };

/**
 * Takes an offer in: the next revision of the recipe, by whoever accepts it with whoever wrote what is
 * offered. All of it or nothing.
 *
 * @param basedOn the head that the choices were made over.
 */
export async function acceptOffer(
  db: Db,
  { offer, why, by, at, basedOn, choices }: Answering & { basedOn: number; choices: Choices },
): Promise<Accepted> {
  return db.transaction(async (tx) => {
    const head = await holdHead(tx, offer.recipe.id);
    if (await isAnswered(tx, offer.id)) return { kind: "answered-before" };
    if (head !== basedOn) return { kind: "stale", head };
    const merge = await findMerge(tx, { offer, number: basedOn });
    if (!merge) return { kind: "stale", head };
    const { offered } = merge;
    const merged = mergedDraft(merge, choices, messageOf(offer, why));
    if (merged.kind !== "draft") return merged;

    const published = await publishRevision(tx, {
      recipeId: offer.recipe.id,
      basedOn,
      draft: merged.draft,
      coauthors: [offered.author, ...offered.coauthors].map(({ id }) => id),
      by,
      at,
    });
    if (published.kind === "stale") return published;
    const { id: revisionId, number } = published;
    await tx
      .insert(offerAnswers)
      .values({ offerId: offer.id, accepted: true, why, revisionId, by, at });
    const detail = { revision: revisionId, number };
    await appendEvent(
      tx,
      { by, at },
      { kind: "offer accepted", subject: "offer", subjectId: offer.id, detail },
    );
    return { kind: "accepted", number };
  });
}

/** Holds a recipe's head until the transaction ends: of two answers the second waits here. */
async function holdHead(tx: Db, recipeId: string): Promise<number> {
  const [held] = await tx
    .update(recipes)
    .set({ head: sql`${recipes.head}` })
    .where(eq(recipes.id, recipeId))
    .returning({ head: recipes.head });
  return held?.head ?? 0;
}

async function isAnswered(tx: Db, offerId: string): Promise<boolean> {
  const [answer] = await tx
    .select({ offerId: offerAnswers.offerId })
    .from(offerAnswers)
    .where(eq(offerAnswers.offerId, offerId));
  return answer !== undefined;
}

/** What the revision says of itself; a message has 500 characters at most. */
const messageOf = ({ from }: FoundOffer, why: string): string => {
  const taken = `Taken in from ${from.name}, revision ${from.number}`;
  return why === "" ? `${taken}.` : `${taken}: ${why.replace(/\s+/g, " ")}`.slice(0, 500);
};
