import { Hono } from "hono";
import type { Env } from "../wire/context.ts";
import { described, openApi } from "../wire/described.ts";

/** Every room of the studio at its addresses. */
export function rooms(app: Hono<Env>): Hono<Env> {
  const all = new Hono<Env>();
  all.get("/", (c) => c.redirect("/recipes", 302));
  all.get("/openapi.json", described({ says: "This description" }), (c) =>
    c.json(openApi(app, { title: "Common Bucket", version: "0.1.0" })),
  );
  return all;
}
