import { Hono } from "hono";
import { z } from "zod";
import { addFiringLog, findFiringLog, readFiringLog } from "../db/firing-logs.ts";
import { findFiring } from "../db/firings.ts";
import { changed, created, wantsJson } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import {
  firingLogQuery,
  firingLogSchema,
  readFiringLog as readSentLog,
} from "../wire/firing-log-body.ts";
import { csvOf } from "../wire/log-csv.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { faulty, notFound, refuse } from "../wire/problems.tsx";
import { openFiring, sheetAgain } from "./firing-sheet.ts";

export const firingReadings = new Hono<Env>();

firingReadings.post(
  "/:id/readings",
  described({
    says: "Keep a firing's readings: JSON pairs, CSV as text/csv, or a form with a file or a text of CSV",
    body: firingLogSchema,
    query: firingLogQuery,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const opened = await openFiring(c, "mayAdd");
    if (!opened) return notFound(c);
    if (opened.kind === "closed") return opened.answer;
    const { firing } = opened;
    const read = await readSentLog(c);
    if (read.kind === "refused") {
      const { status, faults, typed } = read;
      const again = await sheetAgain(c, firing, { form: "readings", typed, faults });
      if (status !== 413) return faulty(c, { status, faults }, again);
      const detail = faults.map(({ says }) => says).join(" ");
      return refuse(c, { status, title: "Too large", detail, errors: faults }, again);
    }
    const { received, log } = read;
    const added = await addFiringLog(c.var.db, {
      firingId: firing.id,
      received,
      log,
      ...actOf(c),
    });
    const tell = added.kind === "added" ? created : changed;
    return tell(c, `/firings/${firing.id}#readings`, { received, kept: log.minutes.length });
  },
);

const asked = z.object({
  all: z.enum(["1"], { error: "1 for all readings as CSV." }).optional(),
});

firingReadings.get(
  "/:id/readings",
  described({
    says: "The newest readings of a firing, few enough to draw; all of them as CSV with all=1",
    query: asked,
  }),
  readerRequired,
  async (c) => {
    const query = check(asked, c.req.query());
    if (query.kind === "refused") return faulty(c, query);
    const { db } = c.var;
    const firing = await findFiring(db, { id: c.req.param("id") });
    const log = firing && (await findFiringLog(db, { firingId: firing.id }));
    if (!firing || !log) return notFound(c);
    if (query.value.all) {
      const day = firing.startedAt.toISOString().slice(0, 10);
      return c.body(csvOf(await readFiringLog(db, { logId: log.id })), 200, {
        "Content-Type": "text/csv; charset=utf-8",
        "Content-Disposition": `attachment; filename="readings-${firing.kiln.slug}-${day}.csv"`,
        // A log never changes, and need not be read through for a tag.
        ETag: `"log-${log.id}"`,
      });
    }
    if (!wantsJson(c)) return c.redirect(`/firings/${firing.id}#readings`, 302);
    const { received, kept, drawn } = log;
    return c.json({ received, kept, readings: drawn, reduced: drawn.length < kept });
  },
);
