import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { PairForm } from "../../views/pairs/form.tsx";
import { Pairs } from "../../views/pairs/list.tsx";
import { addPair, findPair, listPairs } from "../db/pairs.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { revisionAddress } from "../wire/revision-address.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { pairJson, wholePairJson } from "./pair-json.ts";
import { findPairSheet, findThePair, pairSheet } from "./pair-sheet.ts";

export const pairs = new Hono<Env>();

const pairBody = z.strictObject({
  over: revisionAddress,
  under: revisionAddress,
  about: text(2000, 0).default(""),
  idempotencyKey,
});

const asked = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

pairs.get(
  "/pairs",
  described({ says: "Glazes laid over others, newest first", query: asked }),
  readerRequired,
  async (c) => {
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { viewer: reader, now } = c.var;
    const { items, next } = await listPairs(c.var.db, { ...read.value, reader, now, limit: 50 });
    return answer(c, {
      json: () => ({ items: items.map(pairJson), next }),
      page: { title: "Layered pairs", here: "library" },
      view: () =>
        Pairs({
          pairs: items,
          next: next === null ? null : `/pairs?after=${next}`,
          mayAdd: reader !== undefined,
        }),
    });
  },
);

pairs.get(
  "/pairs/new",
  described({
    says: "The form that puts a layered pair on record",
    query: z.object({
      over: z.string().max(100).optional(),
      under: z.string().max(100).optional(),
    }),
  }),
  memberRequired,
  (c) => {
    const { page: where, view } = form({ over: c.req.query("over"), under: c.req.query("under") });
    return page(c, where, view);
  },
);

pairs.post(
  "/pairs",
  described({ says: "Put a glaze laid over another on record", body: pairBody, status: 201 }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const read = await readBody(c, pairBody);
    if (read.kind === "refused") return faulty(c, read, form(read.typed, read.faults));
    const over = await findGlaze(c, read.value.over);
    const under = await findGlaze(c, read.value.under);
    const faults = [
      ...(over ? [] : [{ path: "over", says: nowhere }]),
      ...(under ? [] : [{ path: "under", says: nowhere }]),
    ];
    if (!over || !under) return faulty(c, { faults }, form(read.typed, faults));

    const { about } = read.value;
    const added = await addPair(db, { overId: over.id, underId: under.id, about, ...actOf(c) });
    switch (added.kind) {
      case "added": {
        const pair = await findPair(db, { id: added.id, reader, now });
        const json = pair && wholePairJson(pair, await findPairSheet(c, pair));
        return created(c, `/pairs/${added.id}`, json);
      }
      case "of-one": {
        const both = [{ path: "under", says: "A glaze is not laid over the revision that it is." }];
        return faulty(c, { faults: both }, form(read.typed, both));
      }
      case "there-already": {
        const detail = "This pair is on record already: put your tile and your words with it.";
        const problem = { status: 409, title: "On record already", detail } as const;
        const more = { pair: `/pairs/${added.id}` };
        const there = form(read.typed, [{ path: "", says: detail }], more.pair);
        return refuse(c, { ...problem, more }, there);
      }
    }
  },
);

pairs.get(
  "/pairs/:id",
  described({ says: "A glaze laid over another: its tiles, its standing and who says so" }),
  readerRequired,
  async (c) => {
    const pair = await findThePair(c);
    if (!pair) return notFound(c);
    const sheet = await findPairSheet(c, pair);
    return answer(c, { json: () => wholePairJson(pair, sheet), ...pairSheet(c, pair, sheet) });
  },
);

const nowhere = "There is no such revision, or none that you may see.";

async function findGlaze(c: Ctx, address: z.output<typeof revisionAddress>) {
  const recipe = await findRecipe(c.var.db, { slug: address.slug, reader: c.var.viewer });
  if (!recipe) return undefined;
  const number = address.number ?? recipe.head;
  return findRevision(c.var.db, { recipeId: recipe.id, number });
}

const form = (typed: Typed, faults: readonly Fault[] = [], there?: string) => ({
  page: { title: "Lay a glaze over another", here: "library" } as const,
  view: () =>
    PairForm({
      typed: {
        over: typedText(typed, "over"),
        under: typedText(typed, "under"),
        about: typedText(typed, "about"),
      },
      faults,
      there,
      idempotencyKey: uuidv7(),
    }),
});
