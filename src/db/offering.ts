import { and, desc, eq, isNull } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { type FoundRecipe, findRecipe, type Reader } from "./recipes.ts";
import { type FoundRevision, findRevision, findRevisions } from "./revisions.ts";
import { offerAnswers, offers, recipes, revisions } from "./schema/index.ts";

export type NewOffer =
  | { kind: "offered"; id: string }
  | { kind: "offered-before"; id: string }
  | { kind: "no-such-revision" }
  | { kind: "not-a-fork" }
  | { kind: "not-theirs"; owner: string }
  | { kind: "hidden" }
  | { kind: "nothing-new" };

type Offering = Act & {
  by: string;
  recipe: FoundRecipe;
  from: { slug: string; number: number | undefined };
  reader: Reader;
  why: string;
};

/**
 * Offers a fork's revision back to the recipe that it was forked from. The fork's owner may, and who
 * wrote the revision. What both came from is pinned with it.
 */
export async function makeOffer(
  db: Db,
  { recipe, from, reader, why, by, at }: Offering,
): Promise<NewOffer> {
  return db.transaction(async (tx) => {
    const fork = await findRecipe(tx, { slug: from.slug, reader });
    const number = from.number ?? fork?.head;
    const offered = fork && number && (await findRevision(tx, { recipeId: fork.id, number }));
    if (!fork || !offered) return { kind: "no-such-revision" };
    const origin = await findOriginIn(tx, { forkId: fork.id, recipeId: recipe.id });
    if (!origin) return { kind: "not-a-fork" };
    if (fork.owner.id !== by && offered.author.id !== by)
      return { kind: "not-theirs", owner: fork.owner.name };
    if (fork.shownTo === "private" && fork.owner.id !== recipe.owner.id) return { kind: "hidden" };

    const open = await findOpenOffer(tx, { recipeId: recipe.id, revisionId: offered.id });
    if (open) return { kind: "offered-before", id: open.id };
    const baseId = (await findLastTaken(tx, { recipeId: recipe.id, forkId: fork.id })) ?? origin;
    const [base] = await findRevisions(tx, [baseId]);
    if (!base || saysTheSame(base, offered)) return { kind: "nothing-new" };

    const id = uuidv7();
    const row = { id, recipeId: recipe.id, revisionId: offered.id, baseId, why, by, at };
    await tx.insert(offers).values(row);
    const detail = { recipe: recipe.id, revision: offered.id, base: baseId };
    await appendEvent(tx, { by, at }, { kind: "offered", subject: "offer", subjectId: id, detail });
    return { kind: "offered", id };
  });
}

const saysTheSame = (a: FoundRevision, b: FoundRevision): boolean =>
  a.digest === b.digest && a.surface === b.surface && a.about === b.about;

/** The revision that a fork started from, where it is one of the recipe's. */
async function findOriginIn(
  tx: Db,
  { forkId, recipeId }: { forkId: string; recipeId: string },
): Promise<string | undefined> {
  const [origin] = await tx
    .select({ id: revisions.id })
    .from(recipes)
    .innerJoin(revisions, eq(revisions.id, recipes.forkedFrom))
    .where(and(eq(recipes.id, forkId), eq(revisions.recipeId, recipeId)));
  return origin?.id;
}

async function findOpenOffer(
  tx: Db,
  { recipeId, revisionId }: { recipeId: string; revisionId: string },
) {
  const [open] = await tx
    .select({ id: offers.id })
    .from(offers)
    .leftJoin(offerAnswers, eq(offerAnswers.offerId, offers.id))
    .where(
      and(
        eq(offers.recipeId, recipeId),
        eq(offers.revisionId, revisionId),
        isNull(offerAnswers.offerId),
      ),
    );
  return open;
}

/** The revision of a fork that the recipe last took in. */
async function findLastTaken(
  tx: Db,
  { recipeId, forkId }: { recipeId: string; forkId: string },
): Promise<string | undefined> {
  const [taken] = await tx
    .select({ id: offers.revisionId })
    .from(offers)
    .innerJoin(offerAnswers, eq(offerAnswers.offerId, offers.id))
    .innerJoin(revisions, eq(revisions.id, offers.revisionId))
    .where(
      and(
        eq(offers.recipeId, recipeId),
        eq(revisions.recipeId, forkId),
        eq(offerAnswers.accepted, true),
      ),
    )
    .orderBy(desc(offerAnswers.at), desc(offers.id))
    .limit(1);
  return taken?.id;
}
