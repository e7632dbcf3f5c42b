import { createMiddleware } from "hono/factory";
import { freeKey, keepAnswer, takeKey } from "../db/answers.ts";
import { digestOf } from "../db/digests.ts";
import type { Ctx, Env } from "./context.ts";
import { refuse } from "./problems.tsx";

/** These store nothing, and forms of other pages are sent to them with those pages' keys. */
const computing = new Set([
  "/batch",
  "/blends",
  "/chemistry",
  "/cone-estimate",
  "/restate",
  "/shelf-plan",
  "/shelf-reach",
  "/slurry",
]);

/** Reading a handout with one's own powders stores nothing either. */
export const isComputing = (path: string): boolean =>
  computing.has(path) || /^\/(?:(?:recipes|families)\/[^/]+\/handout|handouts\/[^/]+)$/.test(path);

/**
 * A double tap creates once: a POST with an `Idempotency-Key` (in a form, the hidden field
 * `idempotencyKey`) is carried out in one transaction with the keeping of its answer, and the same
 * key from the same person gets that answer for a day. The same key with another body is refused.
 */
export const repeatable = createMiddleware<Env>(async (c, next) => {
  const viewer = c.get("viewer");
  const key = viewer && !isComputing(c.req.path) && (await keyOf(c));
  if (!viewer || !key) return next();

  const personId = viewer.id;
  const request = digestOf([
    c.req.method,
    c.req.path,
    Buffer.from(await c.req.arrayBuffer()).toString("base64"),
  ]);
  let answered: Response | undefined;
  const outer = c.var.db;
  const run = outer.transaction(async (tx) => {
    // First of all: whatever is answered in here asks within the transaction, since the embedded
    // engine has one connection and would wait for itself.
    c.set("db", tx);
    const taken = await takeKey(tx, { personId, key, request, at: c.var.now });
    if (taken.kind === "other-request") {
      answered = await otherRequest(c);
      return;
    }
    if (taken.kind === "answered") {
      answered = new Response(taken.body, { status: taken.status, headers: taken.headers });
      return;
    }
    await next();
    if (c.error || c.res.status >= 400) throw new NothingKept();
    // A form that is shown again, or a computation, has created nothing: its key stays free.
    if (!creations.has(c.res.status)) return freeKey(tx, { personId, key });
    const copy = c.res.clone();
    await keepAnswer(tx, {
      personId,
      key,
      status: copy.status,
      headers: keptHeaders(copy),
      body: await copy.text(),
    });
  });
  await run.catch((error) => {
    if (!(error instanceof NothingKept)) throw error;
  });
  c.set("db", outer);
  return answered;
});

const creations = new Set([201, 204, 303]);

/** Ends the transaction of a request that was refused, so that it can be tried again. */
class NothingKept extends Error {}

async function keyOf(c: Ctx): Promise<string | undefined> {
  if (c.req.method !== "POST") return undefined;
  const header = c.req.header("idempotency-key");
  if (header) return header.slice(0, 200);
  if (!c.req.header("content-type")?.startsWith("application/x-www-form-urlencoded"))
    return undefined;
  const typed = new URLSearchParams(await c.req.text()).get("idempotencyKey");
  return typed?.slice(0, 200) || undefined;
}

const keptHeaders = (answer: Response): Record<string, string> =>
  Object.fromEntries(
    ["content-type", "location", "hx-location"].flatMap((name) => {
      const value = answer.headers.get(name);
      return value === null ? [] : [[name, value]];
    }),
  );

const otherRequest = (c: Ctx): Promise<Response> =>
  Promise.resolve(
    refuse(c, {
      status: 422,
      title: "This form was sent before",
      detail:
        "The same key came with something else in it. Open the page again and send what you want now.",
    }),
  );
