import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { RecallForm } from "../../views/recalls/form.tsx";
import { RecallsPage } from "../../views/recalls/list.tsx";
import { RecallPage } from "../../views/recalls/page.tsx";
import { whatWords } from "../../views/recalls/words.ts";
import { findBucket, findBuckets } from "../db/buckets.ts";
import { findLot } from "../db/lots.ts";
import { findAffected } from "../db/recall-reach.ts";
import { closeRecall, findRecall, listRecalls, type Recall, raiseRecall } from "../db/recalls.ts";
import { answer, changed, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { closingBody, recallBody } from "../wire/stock-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { bucketIdsOf, type Reached, reachedJson, reachedOf, recallJson } from "./recall-json.ts";

export const recalls = new Hono<Env>();

const most = 200;

recalls.get(
  "/recalls",
  described({ says: "Recalled lots and buckets, those first that nobody closed" }),
  memberRequired,
  async (c) => {
    const items = await listRecalls(c.var.db, { reader: c.var.viewer, limit: most });
    return answer(c, {
      json: () => ({ items: items.map(recallJson), next: null }),
      page: { title: "Recalls", here: "shelf" },
      view: () => RecallsPage({ items }),
    });
  },
);

recalls.get(
  "/recalls/new",
  described({ says: "The form to recall a lot or a bucket, `?lot=` or `?bucket=` by its id" }),
  memberRequired,
  async (c) => {
    if (!mayRecall(c)) return notAllowed(c, onlyReviewers);
    const form = await recallForm(c, c.req.query(), []);
    return form ? page(c, form.page, form.view) : notFound(c);
  },
);

recalls.post(
  "/recalls",
  described({
    says: "Recall a lot or a bucket for safety: nobody may use it from then on",
    body: recallBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    if (!mayRecall(c)) return notAllowed(c, onlyReviewers);
    const read = await readBody(c, recallBody);
    if (read.kind === "refused")
      return faulty(c, read, await recallForm(c, read.typed, read.faults));
    const { lot, bucket, why } = read.value;
    const { db, viewer: reader, now } = c.var;
    const lotId = lot && (await findLot(db, lot))?.id;
    const bucketId = bucket && (await findBucket(db, { id: bucket, reader, now }))?.id;
    const of = lotId ? { lotId } : bucketId ? { bucketId } : undefined;
    if (!of) {
      const path = lot ? "lot" : "bucket";
      return faulty(c, { faults: [{ path, says: `There is no such ${path}.` }] });
    }
    const id = await raiseRecall(db, { of, why, ...actOf(c) });
    const recall = await findRecall(db, { id, reader });
    return created(c, `/recalls/${id}`, recall && (await sheetJson(c, recall)));
  },
);

recalls.get(
  "/recalls/:id",
  described({ says: "A recall: the buckets, the tiles and the people that it reaches" }),
  memberRequired,
  async (c) => {
    const recall = await recallOf(c);
    if (!recall) return notFound(c);
    const reached = await reachOf(c, recall);
    const json = () => ({ ...recallJson(recall), ...reachedJson(recall, reached) });
    return answer(c, { json, ...recallSheet(c, recall, reached, "", []) });
  },
);

recalls.on(
  ["PUT", "POST"],
  "/recalls/:id/closing",
  described({ says: "Say what was done about a recall, which ends it", body: closingBody }),
  managerRequired,
  async (c) => {
    const recall = await recallOf(c);
    if (!recall) return notFound(c);
    const read = await readBody(c, closingBody);
    const again = async (faults: readonly Fault[]) =>
      recallSheet(c, recall, await reachOf(c, recall), typedText(read.typed, "done"), faults);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));
    const closed = { recallId: recall.id, done: read.value.done, ...actOf(c) };
    switch (await closeRecall(c.var.db, closed)) {
      case "closed-before": {
        const faults = [{ path: "done", says: "Somebody closed it before: see what was done." }];
        return faulty(c, { faults }, await again(faults));
      }
      case "closed": {
        const now = (await recallOf(c)) ?? recall;
        return changed(c, `/recalls/${recall.id}`, await sheetJson(c, now));
      }
    }
  },
);

const onlyReviewers =
  "A reviewer or a manager recalls. Any member can put a bucket on hold: do that, and tell one.";

const mayRecall = (c: Ctx): boolean => memberOf(c).role !== "member";

const recallOf = (c: Ctx) =>
  findRecall(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

async function reachOf(c: Ctx, recall: Recall): Promise<Reached> {
  const { db, viewer: reader, now } = c.var;
  const affected = await findAffected(db, recall.id);
  const ids = bucketIdsOf(recall, affected);
  return reachedOf(recall, affected, await findBuckets(db, { ids, reader, now }));
}

const sheetJson = async (c: Ctx, recall: Recall) => ({
  ...recallJson(recall),
  ...reachedJson(recall, await reachOf(c, recall)),
});

const recallSheet = (
  c: Ctx,
  recall: Recall,
  reached: Reached,
  done: string,
  faults: readonly Fault[],
) => ({
  page: { title: `Recall: ${whatWords(recall.of)}`, here: "shelf" as const },
  view: () =>
    RecallPage({
      recall,
      reached,
      mayClose: memberOf(c).role === "manager",
      at: c.var.now,
      done,
      faults,
      idempotencyKey: uuidv7(),
    }),
});

/** The form for the lot or bucket that was asked for; undefined where there is none. */
async function recallForm(c: Ctx, typed: Typed, faults: readonly Fault[]) {
  const { db, viewer: reader, now } = c.var;
  const lot = await findLot(db, typedText(typed, "lot"));
  const bucket = await findBucket(db, { id: typedText(typed, "bucket"), reader, now });
  const of = lot
    ? { kind: "lot" as const, ...lot, supplier: lot.supplier.name, boughtAt: lot.at }
    : bucket && { kind: "bucket" as const, id: bucket.id, name: bucket.name };
  if (!of) return undefined;
  return {
    page: {
      title: `Recall ${of.kind === "lot" ? `a lot of ${of.material.name}` : of.name}`,
      here: "shelf" as const,
    },
    view: () => RecallForm({ of, why: typedText(typed, "why"), faults, idempotencyKey: uuidv7() }),
  };
}
