import { z } from "zod";
import { sha256 } from "../db/digests.ts";
import type { Matches } from "../db/import-matching.ts";
import { check } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import { ticked } from "../wire/fields.ts";
import { readJsonText } from "../wire/json-text.ts";
import { isForm, isJson } from "../wire/media-types.ts";
import type { Fault } from "../wire/problems.tsx";
import { importFile } from "./import-body.ts";

const matches = z.record(z.string().max(200), z.string().max(100));

/** POST of an import as JSON. A form sends the file itself as `file`, the rest under the same names. */
export const importBody = z.strictObject({
  file: z
    .union([z.string(), z.array(z.unknown()), z.looseObject({})], {
      error: "The file: our JSON, a list of recipes, or the text of a CSV.",
    })
    .describe("Our JSON, a list of recipes, or the text of a CSV"),
  fileName: z.string().max(300).default(""),
  dryRun: z.boolean({ error: "true to be told what would happen, false to take it in." }),
  matches: matches.default({}).describe("Name in the file → slug of a material, new, or leave out"),
  again: z.boolean().default(false).describe("The same file was taken in before, and is meant"),
  leaveOutRefused: z.boolean().default(false).describe("Take in the rest where some is refused"),
});

/** For the description alone: what `file` holds. */
export const importDescribed = importBody.extend({ file: importFile.or(z.string()) });

export type ImportAsked = {
  bytes: Uint8Array;
  fileName: string;
  digest: string;
  dryRun: boolean;
  matches: Matches;
  again: boolean;
  leaveOutRefused: boolean;
  /** The digest of the file that was looked at, where a form names it. */
  lookedAt: string | undefined;
};

export type ImportRequest =
  | { kind: "asked"; asked: ImportAsked }
  | { kind: "refused"; status: 413 | 415 | 422; faults: Fault[] };

/** The largest JSON body: a file of text with what is said around it. */
const mostJson = 9 * 1024 * 1024;

export async function readImportRequest(c: Ctx): Promise<ImportRequest> {
  const type = c.req.header("content-type");
  if (isJson(type)) return readJson(await c.req.text());
  if (isForm(type)) {
    const form = await c.req.parseBody({ all: true }).catch(() => undefined);
    return form ? readForm(form) : refused(422, "", "The form could not be read.");
  }
  return refused(
    415,
    "",
    "Send a form with the file, or JSON with Content-Type: application/json and the file in `file`.",
  );
}

const refused = (status: 413 | 415 | 422, path: string, says: string): ImportRequest => ({
  kind: "refused",
  status,
  faults: [{ path, says }],
});

function readJson(text: string): ImportRequest {
  if (text.length > mostJson)
    return refused(
      413,
      "",
      "The file is over 8 MB. Send it in parts: each part is an import of its own.",
    );
  const json = readJsonText(text);
  if (json.kind === "unreadable") return refused(422, "", json.says);
  const read = check(importBody, json.value);
  if (read.kind === "refused") return { kind: "refused", status: 422, faults: read.faults };
  const { file, fileName, ...rest } = read.value;
  const bytes = new TextEncoder().encode(typeof file === "string" ? file : JSON.stringify(file));
  const asked = { bytes, fileName: plainName(fileName), digest: sha256(bytes), ...rest };
  return { kind: "asked", asked: { ...asked, lookedAt: undefined } };
}

type Form = Record<string, string | File | (string | File)[]>;

async function readForm(form: Form): Promise<ImportRequest> {
  const text = (name: string): string => {
    const sent = [form[name]].flat().at(-1);
    return typeof sent === "string" ? sent : "";
  };
  const [file, further] = [form.file]
    .flat()
    .filter((sent) => sent instanceof File && sent.size > 0);
  if (further) return refused(422, "file", "Those are two files. Send one at a time.");
  const kept = text("kept");
  if (!(file instanceof File) && kept === "") {
    const there = [form.file].flat().some((sent) => sent instanceof File && sent.name !== "");
    return refused(422, "file", there ? "The file is empty." : "Choose a file.");
  }
  const bytes =
    file instanceof File
      ? new Uint8Array(await file.arrayBuffer())
      : new Uint8Array(Buffer.from(kept, "base64"));
  const said = matchesOf(form, text);
  if (said.kind === "refused") return said;
  const flag = (name: string) => {
    const read = check(ticked, text(name) || "false");
    return read.kind === "read" && read.value;
  };
  const asked: ImportAsked = {
    bytes,
    fileName: plainName(file instanceof File ? file.name : text("fileName")),
    digest: sha256(bytes),
    // A form that does not say is shown what would happen.
    dryRun: text("dryRun") !== "false",
    matches: said.matches,
    again: flag("again"),
    leaveOutRefused: flag("leaveOutRefused"),
    lookedAt: text("digest") || undefined,
  };
  return { kind: "asked", asked };
}

/** `matches` as JSON, or `name.0` with `is.0` and so on, as the page sends them. */
function matchesOf(
  form: Form,
  text: (name: string) => string,
): { kind: "said"; matches: Matches } | Extract<ImportRequest, { kind: "refused" }> {
  const said: [string, string][] = Object.keys(form).flatMap((key) => {
    const [, place] = /^name\.(\d{1,4})$/.exec(key) ?? [];
    const is = place === undefined ? "" : text(`is.${place}`);
    return is === "" ? [] : [[text(key), is]];
  });
  const json = text("matches");
  if (json === "") return { kind: "said", matches: Object.fromEntries(said) };
  const parsed = readJsonText(json);
  const read = parsed.kind === "read" ? check(matches, parsed.value) : undefined;
  if (read?.kind !== "read") {
    const says = 'The matches are not JSON such as {"Quartz sand": "quartz"}.';
    return { kind: "refused", status: 422, faults: [{ path: "matches", says }] };
  }
  return { kind: "said", matches: { ...read.value, ...Object.fromEntries(said) } };
}

/** What a file is called, without where it lay and what cannot be read. */
const plainName = (name: string): string =>
  (name.split(/[\\/]/).at(-1) ?? "")
    .normalize("NFC")
    .replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, "")
    .trim()
    .slice(0, 190)
    .replace(/\p{Cs}$/u, "");
