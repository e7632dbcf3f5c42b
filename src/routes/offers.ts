import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { OfferForm } from "../../views/offers/form.tsx";
import { OffersPage } from "../../views/offers/list.tsx";
import { makeOffer } from "../db/offering.ts";
import { findOffer, listOffers } from "../db/offers.ts";
import { type FoundRecipe, findRecipe } from "../db/recipes.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { revisionAddress } from "../wire/revision-address.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { offerJson } from "./offer-json.ts";
import { findOfferSheet, offerPage, offerSheetJson } from "./offer-sheet.ts";

export const offers = new Hono<Env>();

const offerBody = z.strictObject({ from: revisionAddress, why: text(2000), idempotencyKey });

offers.get(
  "/recipes/:slug/offers",
  described({ says: "What was offered back to a recipe, newest first" }),
  readerRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const made = await listOffers(c.var.db, { recipeId: recipe.id, reader: c.var.viewer });
    return answer(c, {
      json: () => ({ items: made.map(offerJson), next: null }),
      page: { title: `Offers to ${recipe.name}`, here: "library" },
      view: () => OffersPage({ recipe, offers: made }),
    });
  },
);

offers.get(
  "/recipes/:slug/offers/new",
  described({
    says: "The form that offers a fork's revision back",
    query: z.object({ from: z.string().max(100).optional() }),
  }),
  memberRequired,
  async (c) => {
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const { page: where, view } = form(recipe, { from: c.req.query("from") }, []);
    return page(c, where, view);
  },
);

offers.post(
  "/recipes/:slug/offers",
  described({
    says: "Offer a fork's revision back to the recipe that it was forked from",
    body: offerBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findTheRecipe(c);
    if (!recipe) return notFound(c);
    const read = await readBody(c, offerBody);
    if (read.kind === "refused") return faulty(c, read, form(recipe, read.typed, read.faults));
    const { from, why } = read.value;
    const refused = (says: string) => {
      const faults = [{ path: "from", says }];
      return faulty(c, { faults }, form(recipe, read.typed, faults));
    };

    const made = await makeOffer(db, { recipe, from, reader, why, ...actOf(c) });
    switch (made.kind) {
      case "offered": {
        const offer = await findOffer(db, { id: made.id, reader });
        return created(c, `/offers/${made.id}`, offer && offerJson(offer));
      }
      case "no-such-revision":
        return refused("There is no such revision, or none that you may see.");
      case "not-a-fork":
        return refused(
          `This was not forked from ${recipe.name}. Offer it to the recipe that it came from.`,
        );
      case "nothing-new":
        return refused("It says the same as what it came from: there is nothing to take in.");
      case "hidden":
        return refused(
          `Nobody but you and the manager can see it. Show it to the studio first, so that ${recipe.owner.name} can read it.`,
        );
      case "not-theirs":
        return notAllowed(
          c,
          `It is ${made.owner}'s: its owner, and who wrote the revision, can offer it.`,
        );
      case "offered-before": {
        const detail = "This revision was offered already, and nobody has answered it yet.";
        const problem = { status: 409, title: "Offered already", detail } as const;
        const faults = [{ path: "from", says: detail }];
        return refuse(
          c,
          { ...problem, more: { offer: `/offers/${made.id}` } },
          form(recipe, read.typed, faults),
        );
      }
    }
  },
);

offers.get(
  "/offers/:id",
  described({ says: "An offer beside the recipe's head, and what would come of it" }),
  readerRequired,
  async (c) => {
    const reader = c.var.viewer;
    const offer = await findOffer(c.var.db, { id: c.req.param("id"), reader });
    const sheet = offer && (await findOfferSheet(c, offer));
    if (!sheet) return notFound(c);
    return answer(c, {
      json: () => offerSheetJson(sheet),
      ...offerPage(sheet),
    });
  },
);

const findTheRecipe = (c: Ctx) =>
  findRecipe(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

const form = (recipe: FoundRecipe, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `Offer a fork back to ${recipe.name}`, here: "library" } as const,
  view: () =>
    OfferForm({
      recipe,
      typed: { from: typedText(typed, "from"), why: typedText(typed, "why") },
      faults,
      idempotencyKey: uuidv7(),
    }),
});
