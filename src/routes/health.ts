import { Hono } from "hono";
import { isReachable } from "../db/health.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

export const health = new Hono<Env>();

health.get("/healthz", described({ says: "Whether the process runs" }), (c) =>
  c.json({ is: "running" }),
);

health.get("/readyz", described({ says: "Whether the database answers" }), async (c) =>
  (await isReachable(c.var.db)) ? c.json({ is: "ready" }) : c.json({ is: "not ready" }, 503),
);
