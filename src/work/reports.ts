import { sha256 } from "../db/digests.ts";
import { kindOfPicture } from "./picture-kinds.ts";

/** A laboratory's report may be as large as this, in bytes. */
export const mostReportBytes = 20 * 1024 * 1024;

/** A report ready to be kept as it came. */
export type NewReport = { sha256: string; bytes: Uint8Array };

export type ReadReport =
  | { kind: "read"; report: NewReport }
  | { kind: "empty" }
  | { kind: "too-large" }
  | { kind: "not-pdf"; is: "a picture" | "a web page" | "something else" }
  | { kind: "cut-off" };

/**
 * A file taken as a laboratory's report where its bytes say that it is a PDF; its name and the type
 * that it was sent with are not asked. It is kept as it came and never opened here.
 *
 * Source: ISO 32000-1, 7.5.2 (the file starts with %PDF-) and 7.5.5 (its last line is %%EOF, which
 * readers look for in the last 1024 bytes).
 */
export function readReport(bytes: Uint8Array): ReadReport {
  if (bytes.length === 0) return { kind: "empty" };
  if (bytes.length > mostReportBytes) return { kind: "too-large" };
  if (textOf(bytes.subarray(0, 5)) !== "%PDF-") return { kind: "not-pdf", is: whatIs(bytes) };
  if (!textOf(bytes.subarray(-1024)).includes("%%EOF")) return { kind: "cut-off" };
  return { kind: "read", report: { sha256: sha256(bytes), bytes } };
}

const textOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString("latin1");

function whatIs(bytes: Uint8Array): "a picture" | "a web page" | "something else" {
  if (kindOfPicture(bytes) !== "unknown") return "a picture";
  return /<(!doctype html|html|body|script)/i.test(textOf(bytes.subarray(0, 1024)))
    ? "a web page"
    : "something else";
}
