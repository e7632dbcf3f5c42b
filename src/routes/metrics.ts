import { createHash, timingSafeEqual } from "node:crypto";
import { Hono } from "hono";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";

export const metrics = new Hono<Env>();

metrics.get(
  "/metrics",
  described({
    says: "What this instance counts, in the text format of Prometheus; needs METRICS_TOKEN",
  }),
  async (c) => {
    const { config, metrics: counted } = c.var;
    const sent = /^Bearer (.+)$/.exec(c.req.header("authorization") ?? "")?.[1];
    if (!counted || config.metricsToken === undefined || !isSame(sent ?? "", config.metricsToken))
      return c.text("Nothing is here for you.", 404);
    c.header("Cache-Control", "no-store");
    return c.body(await counted.text(), 200, { "Content-Type": counted.contentType });
  },
);

/** Compared by digests of equal length, so that the time it takes tells nothing. */
const isSame = (one: string, other: string): boolean => {
  const [a, b] = [one, other].map((text) => createHash("sha256").update(text).digest());
  return a !== undefined && b !== undefined && timingSafeEqual(a, b);
};
