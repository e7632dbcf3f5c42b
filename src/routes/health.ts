import { Hono } from "hono";
import { isReachable } from "../db/health.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

export const health = new Hono<Env>();

health.get("/healthz", described({ says: "Whether the process runs" }), (c) =>
  c.json({ is: "running" }),
);

// A replica that is away makes nothing unready: the primary answers for it.
health.get("/readyz", described({ says: "Whether the database answers" }), async (c) => {
  const { db, lists } = c.var;
  const beside = lists && { replica: lists.replica.is() };
  return (await isReachable(db))
    ? c.json({ is: "ready", ...beside })
    : c.json({ is: "not ready", ...beside }, 503);
});
