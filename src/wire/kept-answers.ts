import { createHash } from "node:crypto";
import { findHeadHash } from "../db/chain.ts";
import type { Db } from "../db/client.ts";
import type { Ctx } from "./context.ts";

/** How old an answer may be that is sent once more, milliseconds: what ends by the clock alone, ends then. */
const oldestMs = 5_000;

/** How many answers are kept, and how long one of them may be, bytes. */
const [most, longest] = [100, 400_000];

type Bytes = Uint8Array<ArrayBuffer>;
type Kept = { head: string; at: number; bytes: Bytes; type: string; etag: string };

/** By database, since a process may serve several, and by all that an answer to a visitor depends on. */
const kept = new WeakMap<Db, Map<string, Promise<Kept | undefined>>>();

/**
 * A page that is sent to the next visitor as it was sent to the last one, while nothing was put on
 * record since and for five seconds at most. The head of the record is looked up for each of them, so
 * that what any instance withdrew, recalled or blanked is gone at once. Whoever is signed in is always
 * answered anew: their pages are their own, and hold a form's key that must not be given out twice.
 *
 * @param answer writes nothing but what it puts on record.
 */
export const sameForVisitors =
  (answer: (c: Ctx) => Response | Promise<Response>) =>
  async (c: Ctx): Promise<Response> => {
    if (c.get("signedIn") || /\bno-cache\b/.test(c.req.header("cache-control") ?? ""))
      return answer(c);
    const db = c.get("db");
    const head = await findHeadHash(db);
    const answers = kept.get(db) ?? new Map<string, Promise<Kept | undefined>>();
    kept.set(db, answers);
    const key = keyOf(c);
    const found = await answers.get(key)?.catch(() => undefined);
    const age = found ? performance.now() - found.at : oldestMs;
    if (found?.head === head && age < oldestMs) return send(c, found);

    const at = performance.now();
    const made = Promise.resolve(answer(c));
    const keeping = made.then((response) => keep(response.clone(), { head, at }));
    keeping.catch(() => {});
    answers.delete(key);
    answers.set(key, keeping);
    const [oldest] = answers.keys();
    if (answers.size > most && oldest !== undefined) answers.delete(oldest);
    const fresh = await keeping;
    return fresh ? send(c, fresh) : made;
  };

/** What an answer to somebody who has not signed in depends on, besides the record. */
const asked = ["accept", "content-type", "hx-request", "hx-request-type"];

const keyOf = (c: Ctx): string =>
  JSON.stringify([c.req.url, asked.map((name) => c.req.header(name)), c.get("reading")]);

async function keep(
  response: Response,
  since: Pick<Kept, "head" | "at">,
): Promise<Kept | undefined> {
  const type = response.headers.get("content-type");
  if (response.status !== 200 || type === null || response.headers.has("set-cookie")) return;
  const bytes = new Uint8Array(await response.arrayBuffer());
  if (bytes.length > longest) return;
  return { ...since, bytes, type, etag: `"${createHash("sha1").update(bytes).digest("hex")}"` };
}

const send = (c: Ctx, { bytes, type, etag }: Kept): Response =>
  c.body(bytes, 200, { "Content-Type": type, ETag: etag });
