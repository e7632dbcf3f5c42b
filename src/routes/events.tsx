import { Hono } from "hono";
import { z } from "zod";
import { StudioRecord } from "../../views/events/record.tsx";
import { perPage, readRecord } from "../db/record.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";

export const events = new Hono<Env>();

const query = z.object({
  after: z
    .string()
    .regex(/^\d{1,15}$/, "The number of an event, such as 200.")
    .transform(Number)
    .optional(),
});

events.get(
  "/events",
  described({ says: "What happened after an event, in order, for a manager", query }),
  managerRequired,
  async (c) => {
    const read = check(query, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { items, next, latest } = await readRecord(c.var.db, read.value);
    return answer(c, {
      json: () => ({ items, next }),
      page: { title: "Record", here: "events" },
      view: () => <StudioRecord events={items} next={next} latest={latest} perPage={perPage} />,
    });
  },
);
