import type { z } from "zod";
import type { Ctx } from "./context.ts";
import { isForm, isJson } from "./media-types.ts";
import type { Fault } from "./problems.tsx";

/** What was sent, before anything was made of it: what a form shows again. */
export type Typed = Record<string, unknown>;

export type Read<T> =
  | { kind: "read"; value: T; typed: Typed }
  | { kind: "refused"; status: 415 | 422; faults: Fault[]; typed: Typed };

/**
 * The body of a write, a form or JSON alike, through one schema. In a form a name with dots is a
 * path (`lines.0.amount`), numbers make lists, and an empty field is one that was not filled in.
 */
export async function readBody<S extends z.ZodType>(c: Ctx, schema: S): Promise<Read<z.output<S>>> {
  const sent = await readSent(c);
  if (sent.kind === "refused") return { ...sent, typed: {} };
  return check(schema, sent.value);
}

export function check<S extends z.ZodType>(schema: S, sent: unknown): Read<z.output<S>> {
  const typed = isObject(sent) ? sent : {};
  const read = schema.safeParse(sent, { reportInput: true });
  if (read.success) return { kind: "read", value: read.data, typed };
  return { kind: "refused", status: 422, faults: read.error.issues.flatMap(faultsOfIssue), typed };
}

type Sent =
  | { kind: "sent"; value: unknown }
  | { kind: "refused"; status: 415 | 422; faults: Fault[] };

export async function readSent(c: Ctx): Promise<Sent> {
  const type = c.req.header("content-type");
  if (isJson(type)) {
    const text = await c.req.text();
    try {
      return { kind: "sent", value: JSON.parse(text) };
    } catch (error) {
      const says = `The body is not JSON: ${(error as Error).message}.`;
      return { kind: "refused", status: 422, faults: [{ path: "", says }] };
    }
  }
  if (isForm(type)) {
    const form = await c.req.parseBody({ all: true, dot: true }).catch(() => undefined);
    if (form) return { kind: "sent", value: filledIn(form) ?? {} };
    return {
      kind: "refused",
      status: 422,
      faults: [{ path: "", says: "The form could not be read." }],
    };
  }
  if (type === undefined && c.req.raw.body === null) return { kind: "sent", value: {} };
  return {
    kind: "refused",
    status: 415,
    faults: [{ path: "", says: "Send a form, or JSON with Content-Type: application/json." }],
  };
}

const isObject = (value: unknown): value is Typed =>
  typeof value === "object" && value !== null && !Array.isArray(value) && !(value instanceof File);

/** Leaves out what is empty and makes lists of what is numbered. */
function filledIn(value: unknown): unknown {
  if (value === "") return undefined;
  if (value instanceof File) return value.size === 0 && value.name === "" ? undefined : value;
  if (Array.isArray(value)) return value.map(filledIn).filter((entry) => entry !== undefined);
  if (!isObject(value)) return value;
  const entries = Object.entries(value)
    .map(([key, entry]) => [key, filledIn(entry)] as const)
    .filter(([, entry]) => entry !== undefined);
  if (entries.length === 0) return undefined;
  if (entries.every(([key]) => /^\d{1,3}$/.test(key))) return listOf(entries);
  return Object.fromEntries(entries);
}

/** Keeps the places, so that a fault names the field that it came from. */
function listOf(entries: (readonly [string, unknown])[]): unknown[] {
  const list: unknown[] = [];
  for (const [key, entry] of entries) list[Number(key)] = entry;
  return Array.from(list, (entry) => entry ?? {});
}

type Issue = z.core.$ZodIssue;

function faultsOfIssue(issue: Issue): Fault[] {
  const path = issue.path.map(String).join(".");
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      path: path ? `${path}.${key}` : key,
      says: `There is no field “${key}” here.`,
    }));
  }
  return [{ path, says: sayOf(issue) }];
}

/** zod's own words where nothing better is known; a missing field reads as one. */
function sayOf(issue: Issue): string {
  if (issue.code === "invalid_type") {
    return issue.input === undefined
      ? "This is needed."
      : `Not of the right kind: ${issue.expected} is asked for.`;
  }
  if (issue.code === "too_small" && issue.origin === "string") return "This is needed.";
  if (issue.code === "too_big" && issue.origin === "string")
    return `At most ${issue.maximum} characters.`;
  if (issue.code === "too_big" && issue.origin === "array")
    return `At most ${issue.maximum} of these.`;
  if (issue.code === "invalid_value") return `One of: ${issue.values.map(String).join(", ")}.`;
  return issue.message;
}
