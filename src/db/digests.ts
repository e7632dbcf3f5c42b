import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/** SHA-256 in lower-case hexadecimal. */
export const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

/** JSON in the one form that RFC 8785 gives it, so that equal values have equal digests. */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error("there is no JSON for undefined");
  return text;
}

/** The digest of a value's canonical JSON. */
export const digestOf = (value: unknown): string => sha256(canonicalJson(value));
