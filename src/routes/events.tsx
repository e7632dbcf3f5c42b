import { Hono } from "hono";
import { z } from "zod";
import { StudioRecord } from "../../views/events/record.tsx";
import { subjects } from "../db/events.ts";
import { listDoers, readRecord } from "../db/record.ts";
import { answer, wantsJson } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { day, line } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";

export const events = new Hono<Env>();

const number = z
  .string()
  .regex(/^\d{1,15}$/, "The number of an event, such as 200.")
  .transform(Number)
  .optional();

/** What the program did by itself was done by nobody. */
const program = "program";

const query = z.object({
  after: number,
  before: number,
  who: z
    .union([z.literal(program), z.uuid()], { error: "The id of a person, or “program”." })
    .optional(),
  kind: line(60).optional(),
  subject: z.enum(subjects).optional(),
  day: day.optional(),
});

events.get(
  "/events",
  described({
    says: "What happened, for a manager: after an event in order, or before one and newest first",
    query,
  }),
  managerRequired,
  async (c) => {
    const asked = Object.entries(c.req.query()).filter(([, value]) => value !== "");
    const read = check(query, Object.fromEntries(asked));
    if (read.kind === "refused") return faulty(c, read);
    const { after, before, who, ...wanted } = read.value;
    // A page without a cursor begins with what happened last; JSON with what happened first.
    const end = after === undefined && !wantsJson(c) ? "the end" : undefined;
    const { items, next, latest } = await readRecord(c.var.db, {
      after,
      before: before ?? end,
      by: who === program ? null : who,
      ...wanted,
    });
    const doers = wantsJson(c) ? [] : await listDoers(c.var.db);
    return answer(c, {
      json: () => ({ items, next }),
      page: { title: "Record", here: "events" },
      view: () => (
        <StudioRecord
          events={items}
          next={next}
          latest={latest}
          newestFirst={after === undefined}
          asked={{ who, ...wanted }}
          doers={[...doers, { id: program, name: "The program" }]}
          subjects={subjects}
        />
      ),
    });
  },
);
