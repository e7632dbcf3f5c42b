import { Hono } from "hono";
import { WaitingPage } from "../../views/waiting/waiting.tsx";
import { countWaiting, listWaiting, mostListed } from "../db/waiting.ts";
import { answer } from "../wire/answers.tsx";
import { type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";

export const waiting = new Hono<Env>();

waiting.get(
  "/waiting",
  described({ says: "What waits for you, newest first" }),
  memberRequired,
  async (c) => {
    const waiter = { reader: memberOf(c), now: c.var.now };
    const items = await listWaiting(c.var.db, waiter);
    const of = items.length < mostListed ? items.length : await countWaiting(c.var.db, waiter);
    return answer(c, {
      json: () => ({ items, next: null, of }),
      page: { title: "What waits for you", here: "waiting" },
      view: () => WaitingPage({ items, of }),
    });
  },
);
