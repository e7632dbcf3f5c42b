import { createMiddleware } from "hono/factory";
import type { Env } from "./context.ts";
import { notAllowed, signInFirst } from "./problems.tsx";

/** For people of the studio only. */
export const memberRequired = createMiddleware<Env>(async (c, next) => {
  if (!c.var.viewer) return signInFirst(c);
  await next();
});

/** For managers only. */
export const managerRequired = createMiddleware<Env>(async (c, next) => {
  if (!c.var.viewer) return signInFirst(c);
  if (c.var.viewer.role !== "manager")
    return notAllowed(c, "Only a manager of the studio can do this. Ask one.");
  await next();
});

/** For who may read the library: everybody where the studio shows it, people of the studio where not. */
export const readerRequired = createMiddleware<Env>(async (c, next) => {
  if (!c.get("viewer") && !c.get("studio").showsPublic) return signInFirst(c);
  await next();
});
