import { setTimeout as wait } from "node:timers/promises";
import { getCookie, setCookie } from "hono/cookie";
import { createMiddleware } from "hono/factory";
import { patienceMs, type ReplicaIs, writtenUpTo } from "../db/replica.ts";
import type { Ctx, Env, ListRead, Lists } from "./context.ts";
import { isComputing } from "./repeats.ts";

const cookie = "wrote";

/** Longer than a replica that is read may be behind: once it is gone, every replica holds the write. */
const cookieSeconds = 60;

/** No replica has come this far. */
const nowhere = "FFFFFFFF/FFFFFFFF";

/**
 * Notes in the browser up to where the database had written when a request of it had changed
 * something: a list that is read from a replica has to hold that. Nothing is kept here, so that any
 * instance may be asked next, and whoever makes such a note up is only shown the primary's lists.
 */
export const noteWrites = createMiddleware<Env>(async (c, next) => {
  await next();
  const { method, path } = c.req;
  if (method === "GET" || method === "HEAD" || method === "OPTIONS" || !c.var.lists) return;
  if (c.res.status >= 400 || isComputing(path)) return;
  const position = await writtenUpTo(c.var.db).catch(() => nowhere);
  setCookie(c, cookie, position, {
    ...{ path: "/", httpOnly: true, sameSite: "Lax", maxAge: cookieSeconds },
    secure: c.var.config.publicUrl?.startsWith("https:") ?? false,
  });
});

/**
 * A list that may be read from the replica. It goes to the primary where the replica is away or too
 * far behind, where it does not hold yet what this browser wrote, where the newest is asked for
 * (`Cache-Control: no-cache`), and where the replica fails: also where a list first has to settle
 * something, since nothing is written there. Who asks was found on the primary before.
 *
 * @param list reads and changes nothing, so that it can be asked twice.
 */
export const fromReplica =
  (list: (c: Ctx) => Response | Promise<Response>) =>
  async (c: Ctx): Promise<Response> => {
    const lists = c.get("lists");
    if (!lists) return list(c);
    const read = whichFor(c, lists);
    if (read !== "replica") {
      lists.tell?.(read);
      return list(c);
    }
    const primary = c.var.db;
    try {
      c.set("db", lists.replica.db);
      const answer = await inTime(list(c));
      lists.tell?.("replica");
      return answer;
    } catch (error) {
      if (!isReadOnly(error)) lists.replica.failed();
      lists.tell?.("primary: replica failed");
      c.set("db", primary);
      return await list(c);
    } finally {
      c.set("db", primary);
    }
  };

function whichFor(c: Ctx, { replica }: Lists): ListRead {
  const is: ReplicaIs = replica.is();
  if (is !== "read") return `primary: replica ${is}`;
  if (/\bno-cache\b/.test(c.req.header("cache-control") ?? "")) return "primary: asked for";
  const wrote = getCookie(c, cookie);
  return wrote === undefined || replica.holds(wrote) ? "replica" : "primary: own writes";
}

async function inTime(answer: Response | Promise<Response>): Promise<Response> {
  const ended = new AbortController();
  const late = wait(patienceMs, undefined, { signal: ended.signal }).then(() => {
    throw new Error("the replica takes too long");
  });
  late.catch(() => {});
  try {
    return await Promise.race([answer, late]);
  } finally {
    ended.abort();
  }
}

/** What a database says that is read only, itself or as what an error of drizzle's came from. */
const isReadOnly = (error: unknown): boolean =>
  error instanceof Error &&
  (("code" in error && error.code === "25006") || isReadOnly(error.cause));
