import { z } from "zod";
import { firingKinds } from "../db/firings.ts";
import { idempotencyKey, line, text, whole } from "./fields.ts";
import { cone } from "./recipe-body.ts";

/** As many rows as a firing's form has, and no more than anybody's kiln needs. */
const mostSegments = 24;
const mostWitness = 32;

/** A row of the form that nothing was typed in; the rows after it keep their places. */
const isBlank = (row: unknown): boolean =>
  typeof row === "object" && row !== null && Object.keys(row).length === 0;

const rowsOf = <S extends z.ZodType>(row: S, most: number) =>
  z
    .array(z.preprocess((typed) => (isBlank(typed) ? null : typed), row.nullable()))
    .max(most)
    .default([])
    .transform((rows) => rows.filter((one) => one !== null));

const segment = z.strictObject({
  celsiusPerHour: whole(1, 2000),
  toCelsius: whole(0, 1400),
  holdMinutes: whole(0, 10_000).default(0),
});

/** A cone that stood beside the ware. */
export const witnessCone = z.strictObject({
  cone,
  bendDegrees: whole(0, 180),
  place: line(80, 0).default(""),
});

const written = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)?$/;
const askFor = "A day and a time such as 2026-03-01T18:30Z. Without a zone it is taken as UTC.";

/** A moment with its zone; what a form's field gives has none and is taken as UTC. */
const moment = z
  .string({ error: askFor })
  .trim()
  .transform((typed, context) => {
    const zoned = /(Z|[+-]\d\d:\d\d)$/.test(typed) ? typed : `${typed}Z`;
    const at = new Date(zoned);
    const isThere = !Number.isNaN(at.getTime()) && isDay(typed.slice(0, 10));
    if (written.test(typed) && isThere && at.getTime() >= earliest) return at;
    context.addIssue({ code: "custom", message: askFor });
    return z.NEVER;
  });

const earliest = Date.parse("1900-01-01T00:00:00Z");

/** The 30th of February is read as March by some, and is no day of anybody's firing. */
const isDay = (day: string): boolean => z.iso.date().safeParse(day).success;

/** POST of a firing: which kiln, what for, when, by which programme, and what the witness cones did. */
export const firingBody = z.strictObject({
  kiln: line(80),
  kind: z.enum(firingKinds),
  cone,
  startedAt: moment,
  programme: rowsOf(segment, mostSegments),
  witness: rowsOf(witnessCone, mostWitness),
  remark: text(4000, 0).default(""),
  idempotencyKey,
});
