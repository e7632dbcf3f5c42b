import { performance } from "node:perf_hooks";
import { createMiddleware } from "hono/factory";
import { matchedRoutes } from "hono/route";
import type { Ctx, Env, ListRead } from "./context.ts";

/**
 * What is told of a request: the pattern of its address, never the address itself, which may hold
 * what lets somebody in; and nothing of who asked or what was sent.
 */
export type Answered = {
  id: string;
  method: string;
  route: string;
  status: number;
  milliseconds: number;
};

/** What broke in a request. */
export type Broken = Pick<Answered, "id" | "method" | "route"> & { error: unknown };

/** Whoever listens to what the app has to tell of its own running. */
export type Telling = {
  answered?: (request: Answered) => void;
  /** A list was read, where there is a replica to read it from. */
  listed?: (read: ListRead) => void;
  broken: (fault: Broken) => void;
};

/** Tells of every request once its answer is there. */
export const tellAnswered = (tell: Telling) =>
  createMiddleware<Env>(async (c, next) => {
    const start = performance.now();
    await next();
    tell.answered?.({
      id: c.get("requestId"),
      method: c.req.method,
      route: routeOf(c),
      status: c.res.status,
      milliseconds: performance.now() - start,
    });
  });

/** The pattern that a request's address fits, such as `/recipes/:slug`; `unknown` where none does. */
export function routeOf(c: Ctx): string {
  const fits = matchedRoutes(c).findLast(
    ({ method, path }) => method !== "ALL" && !path.endsWith("*"),
  );
  return fits?.path ?? "unknown";
}
