import { and, eq, isNull } from "drizzle-orm";
import type { Db } from "./client.ts";
import { offerAnswers, offers, people, recipes } from "./schema/index.ts";
import { type Waiter, waitingColumns } from "./waiting-rows.ts";

/** Offers that nobody has answered, to the person's own recipes; to all of them for a manager. */
export const openOffers = (db: Db, { reader }: Waiter) =>
  db
    .select(waitingColumns({ kind: "offer", ref: offers.id, at: offers.at, by: people.name }))
    .from(offers)
    .innerJoin(recipes, eq(recipes.id, offers.recipeId))
    .innerJoin(people, eq(people.id, offers.by))
    .leftJoin(offerAnswers, eq(offerAnswers.offerId, offers.id))
    .where(
      and(
        isNull(offerAnswers.offerId),
        reader.role === "manager" ? undefined : eq(recipes.ownerId, reader.id),
      ),
    );
