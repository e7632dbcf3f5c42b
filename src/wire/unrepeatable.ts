import { createMiddleware } from "hono/factory";
import type { Env } from "./context.ts";
import { refuse } from "./problems.tsx";

/**
 * For calls whose answer must not be kept for a repeat, or whose count of failures must stand even
 * where the request is refused: a request with a key runs in one transaction and keeps its answer.
 */
export const unrepeatable = createMiddleware<Env>(async (c, next) => {
  if (c.req.header("idempotency-key") === undefined) return next();
  return refuse(c, {
    status: 422,
    title: "No key here",
    detail: "Send this without an Idempotency-Key: its answer is not kept.",
  });
});
