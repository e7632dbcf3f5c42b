import type { Readable } from "node:stream";
import type { z } from "zod";
import { canonicalJson } from "../db/digests.ts";
import type { ExportRow } from "../db/export-fields.ts";
import { mostBytes } from "./export-format.ts";
import { FileFault } from "./zip-reading.ts";

const newline = 0x0a;

/** The lines of a file, each ended by a newline, of which one alone is ever held. */
export async function* linesOf(name: string, stream: Readable): AsyncGenerator<string> {
  const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  let begun: Buffer[] = [];
  let length = 0;
  let number = 1;
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    let from = 0;
    for (;;) {
      const end = chunk.indexOf(newline, from);
      const piece = chunk.subarray(from, end === -1 ? undefined : end);
      begun.push(piece);
      length += piece.length;
      if (length > mostBytes.line) throw new FileFault(`${name}, line ${number}: it is too long.`);
      if (end === -1) break;
      yield decoded(utf8, Buffer.concat(begun), `${name}, line ${number}`);
      begun = [];
      length = 0;
      number += 1;
      from = end + 1;
    }
  }
  if (length > 0) throw new FileFault(`${name}, line ${number}: it is cut off.`);
}

function decoded(utf8: TextDecoder, line: Buffer, place: string): string {
  try {
    return utf8.decode(line);
  } catch {
    throw new FileFault(`${place}: it is not UTF-8.`);
  }
}

/**
 * One line read by the schema of its noun.
 *
 * @throws {FileFault} with the place and what is wrong there. A line that says the right thing in
 *   another way than an export writes it is refused too: what is taken in comes out the same again.
 */
export function rowOf(line: string, schema: z.ZodType, place: string): ExportRow {
  const read = schema.safeParse(parsed(line, place));
  if (!read.success) {
    const [issue] = read.error.issues;
    const field = issue?.path.join(".");
    throw new FileFault(`${place}${field ? `, ${field}` : ""}: ${issue?.message ?? "not a row"}.`);
  }
  const row = read.data as ExportRow;
  if (!isCanonical(row, line))
    throw new FileFault(`${place}: it is not written as an export writes it.`);
  return row;
}

function isCanonical(row: ExportRow, line: string): boolean {
  try {
    return canonicalJson(row) === line;
  } catch {
    // Nested deeper than anything that an export writes.
    return false;
  }
}

function parsed(line: string, place: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    throw new FileFault(`${place}: it is not JSON.`);
  }
}
