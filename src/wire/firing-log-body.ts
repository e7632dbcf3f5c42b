import { z } from "zod";
import { mostLogged } from "../chem/firing-log.ts";
import type { Typed } from "./body.ts";
import type { Ctx } from "./context.ts";
import { openLineReader } from "./log-lines.ts";
import { type LogPage, type LogRead, openLogPage, type Unit } from "./log-page.ts";
import { readPairs } from "./log-pairs.ts";
import { isCsv, isForm, isJson } from "./media-types.ts";
import type { Fault } from "./problems.tsx";

/** As much as a log of the most readings takes, with room for a few more digits. */
export const mostLogBytes = 40 * 1024 * 1024;

/** What of a pasted log is shown again beside its faults. */
const mostShownAgain = 2_000_000;

/** POST of a firing's readings, as /openapi.json tells it; it is read as it comes in. */
export const firingLogSchema = z
  .array(z.tuple([z.number(), z.number()]))
  .max(mostLogged)
  .describe("[minutes since the start, temperature]; in a form or as text/csv a line each");

export const firingLogQuery = z.object({
  unit: z.enum(["C", "F"]).optional().describe("What the temperatures are in; °C where unsaid"),
});

export type FiringLogBody =
  | (Extract<LogRead, { kind: "read" }> & { typed: Typed })
  | { kind: "refused"; status: 413 | 415 | 422; faults: Fault[]; typed: Typed };

/** The readings of a firing: JSON pairs, CSV, or a form with a file or a text of CSV. */
export async function readFiringLog(c: Ctx): Promise<FiringLogBody> {
  const type = c.req.header("content-type");
  const asked = c.req.query("unit");
  if (isForm(type)) return readForm(c, asked);
  const unit = unitOf(asked);
  if (unit === "none") return refused(422, [noUnit]);
  const page = openLogPage(unit);
  if (isJson(type)) {
    readPairs(page, await c.req.text());
    return told(page.read());
  }
  if (!isCsv(type)) return refused(415, [{ path: "", says: sayTypes }]);
  if (!(await readStream(page, unit, await bodyOf(c)))) return refused(413, [tooLarge]);
  return told(page.read());
}

async function readForm(c: Ctx, asked: string | undefined): Promise<FiringLogBody> {
  const form = await c.req.parseBody({ all: true }).catch(() => undefined);
  if (!form) return refused(422, [{ path: "", says: "The form could not be read." }]);
  const sent = [form.readings].flat();
  const pasted = sent.filter((one) => typeof one === "string").join("\n");
  const files = sent.filter((one) => one instanceof File && one.size > 0) as File[];
  const said = typeof form.unit === "string" && form.unit !== "" ? form.unit : asked;
  const typed = {
    readings: pasted.length <= mostShownAgain ? pasted : "",
    unit: said ?? "",
  };
  const unit = unitOf(said);
  if (unit === "none") return refused(422, [noUnit], typed);
  const [file] = files;
  if (files.length > 1 || (file && pasted.trim() !== ""))
    return refused(
      422,
      [{ path: "readings", says: "Send one file, or paste the text: not both." }],
      typed,
    );
  const page = openLogPage(unit);
  if (file) await readStream(page, unit, file.stream());
  else {
    const reader = openLineReader(page, unit);
    reader.take(pasted);
    reader.end();
  }
  return told(page.read(), typed);
}

/** Reads CSV while it comes in. @returns false where it is larger than may be sent. */
async function readStream(
  page: LogPage,
  unit: Unit | undefined,
  stream: ReadableStream<Uint8Array> | null,
): Promise<boolean> {
  const reader = openLineReader(page, unit);
  const decoder = new TextDecoder();
  let size = 0;
  for await (const piece of stream ?? []) {
    size += piece.length;
    if (size > mostLogBytes) return false;
    reader.take(decoder.decode(piece, { stream: true }));
  }
  reader.take(decoder.decode());
  reader.end();
  return true;
}

/** The body as it comes in; where a request that may be repeated was read before, from what was kept. */
async function bodyOf(c: Ctx): Promise<ReadableStream<Uint8Array> | null> {
  return c.req.raw.bodyUsed ? new Blob([await c.req.arrayBuffer()]).stream() : c.req.raw.body;
}

function told(read: LogRead, typed: Typed = {}): FiringLogBody {
  switch (read.kind) {
    case "read":
      return { ...read, typed };
    case "faulty":
      return refused(422, read.faults, typed);
    case "too-many":
      return refused(413, [tooMany], typed);
  }
}

const refused = (status: 413 | 415 | 422, faults: Fault[], typed: Typed = {}): FiringLogBody => ({
  kind: "refused",
  status,
  faults,
  typed,
});

function unitOf(said: string | undefined): Unit | "none" | undefined {
  if (said === undefined || said === "") return undefined;
  if (/^(°?c|celsius)$/i.test(said)) return "C";
  return /^(°?f|fahrenheit)$/i.test(said) ? "F" : "none";
}

const noUnit = { path: "unit", says: "The unit is C or F." };

const sayTypes =
  "Send CSV with Content-Type: text/csv, JSON pairs with application/json, or a form with “readings”.";

const tooMany = {
  path: "readings",
  says: "More than 1,000,000 readings. Leave some out: one a second is plenty.",
};

const tooLarge = {
  path: "readings",
  says: "The readings are over 40 MB. Leave some out: one a second is plenty.",
};
