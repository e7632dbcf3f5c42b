import { Hono } from "hono";
import { z } from "zod";
import { acceptOffer, declineOffer } from "../db/offer-answers.ts";
import { type FoundOffer, findOffer } from "../db/offers.ts";
import { changed } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text, ticked } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { offerJson } from "./offer-json.ts";
import { findOfferSheet, type OfferSheet, offerPage, staleSides } from "./offer-sheet.ts";
import { revisionJson } from "./recipe-json.ts";

export const offerAnswers = new Hono<Env>();

/** Whose counts, by the key of what both changed. */
const chosen = z
  .record(z.string().max(200), z.enum(["recipe", "offer"]))
  .refine((choices) => Object.keys(choices).length <= 200, "At most 200 of these.")
  .default({});

const answerBody = z
  .strictObject({
    accept: ticked,
    why: text(2000, 0).default(""),
    /** The head that the choices were made over; the head of now where nothing is said. */
    basedOn: z.coerce.number().int().min(1).max(1_000_000).optional(),
    lines: chosen,
    fields: chosen,
    idempotencyKey,
  })
  .refine(({ accept, why }) => accept || why !== "", {
    error: "Say why not: who offered it reads this.",
    path: ["why"],
  });

offerAnswers.on(
  ["PUT", "POST"],
  "/offers/:id/answer",
  described({ says: "Take an offer in, or decline it with the reason", body: answerBody }),
  memberRequired,
  async (c) => {
    const sheet = await findTheSheet(c);
    if (!sheet) return notFound(c);
    const { offer, left } = sheet;
    if (!left.recipe.mayRevise) return notTheirs(c, sheet);
    if (offer.answer) return answeredBefore(c, sheet);
    const read = await readBody(c, answerBody);
    const refused = (faults: readonly Fault[]) =>
      faulty(c, { faults }, offerPage(sheet, { typed: read.typed, faults }));
    if (read.kind === "refused")
      return faulty(c, read, offerPage(sheet, { typed: read.typed, faults: read.faults }));

    const { accept, why, basedOn = left.revision.number, lines, fields } = read.value;
    const act = { offer, why, ...actOf(c) };
    const answered = accept
      ? await acceptOffer(c.var.db, { ...act, basedOn, choices: { lines, fields } })
      : await declineOffer(c.var.db, act);
    switch (answered.kind) {
      case "declined":
      case "accepted": {
        const now = await findOffer(c.var.db, { id: offer.id, reader: c.var.viewer });
        return changed(c, `/offers/${offer.id}`, now && offerJson(now));
      }
      case "answered-before":
        return answeredBefore(c, (await findTheSheet(c)) ?? sheet);
      case "stale":
        return stale(c, basedOn, read.typed);
      case "open":
        return refused([
          ...answered.lines.map((key) => unchosen(`lines.${key}`)),
          ...answered.fields.map((key) => unchosen(`fields.${key}`)),
        ]);
      case "unmixable":
        return refused(answered.says.map((says) => ({ path: "", says })));
    }
  },
);

const unchosen = (path: string): Fault => ({
  path,
  says: `Both changed ${path.replace(/^(lines|fields)\.((base|addition):)?/, "")}: choose the recipe's or the offer's.`,
});

async function findTheSheet(c: Ctx): Promise<OfferSheet | undefined> {
  const id = c.req.param("id") ?? "";
  const offer: FoundOffer | undefined = await findOffer(c.var.db, { id, reader: c.var.viewer });
  return offer && findOfferSheet(c, offer);
}

const notTheirs = (c: Ctx, sheet: OfferSheet) =>
  notAllowed(
    c,
    `${sheet.left.recipe.name} is ${sheet.left.recipe.owner.name}'s: its owner or a manager answers what is offered to it.`,
    offerPage(sheet),
  );

function answeredBefore(c: Ctx, sheet: OfferSheet) {
  const detail = "This offer was answered already, and that stands. Offer a later revision anew.";
  const problem = { status: 409, title: "Answered already", detail } as const;
  return refuse(c, { ...problem, more: { answer: sheet.offer.answer } }, offerPage(sheet));
}

/** The recipe's head moved while the offer was looked at: both are shown, nothing is taken in. */
async function stale(c: Ctx, basedOn: number, typed: Typed) {
  const sheet = await findTheSheet(c);
  if (!sheet) return notFound(c);
  const sides = await staleSides(c, sheet, basedOn);
  const detail = sides?.says ?? `${sheet.left.recipe.name} has no revision ${basedOn}.`;
  const problem = {
    status: 409,
    type: "/problems/stale",
    title: "Somebody was first",
    detail,
    more: { head: revisionJson(sheet.left.revision) },
  } as const;
  return refuse(c, problem, offerPage(sheet, { typed, stale: sides }));
}
