import { canonicalJson, sha256 } from "../src/db/digests.ts";
import { type Files, zipOf } from "./exports.ts";

type Manifest = {
  counts: Record<string, number>;
  entries: { name: string; bytes: number; sha256: string }[];
} & Record<string, unknown>;

/** An export with some files changed and the manifest made to fit them, as somebody would who means it. */
export function fitted(
  files: Files,
  change: (files: Files) => void,
  alter: (manifest: Manifest) => void = () => {},
): Promise<Buffer> {
  const changed = new Map(files);
  const manifest: Manifest = JSON.parse(String(files.get("manifest.json")));
  changed.delete("manifest.json");
  change(changed);
  manifest.entries = [...changed].map(([name, bytes]) => ({
    name,
    bytes: bytes.length,
    sha256: sha256(bytes),
  }));
  for (const [name, bytes] of changed)
    if (name.endsWith(".jsonl"))
      manifest.counts[name.slice(0, -6)] = bytes.toString("utf8").split("\n").length - 1;
  alter(manifest);
  changed.set("manifest.json", Buffer.from(`${canonicalJson(manifest)}\n`));
  return zipOf(changed);
}

/** The same with one line of a noun's file changed; `row` may be changed in place or answered anew. */
export const withRow = (
  files: Files,
  noun: string,
  change: (row: Record<string, unknown>, line: string) => unknown,
  place = 0,
): Promise<Buffer> =>
  fitted(files, (changed) => {
    const name = `${noun}.jsonl`;
    const lines = String(changed.get(name)).split("\n");
    const line = lines[place];
    if (!line) throw new Error(`${name} has no line ${place + 1}`);
    const row = JSON.parse(line);
    const answered = change(row, line);
    lines[place] = typeof answered === "string" ? answered : canonicalJson(row);
    changed.set(name, Buffer.from(lines.join("\n")));
  });

/** Where a file's packed bytes begin in a zip. */
export function dataOf(zip: Buffer, name: string): number {
  for (let at = zip.indexOf("PK\x03\x04"); at !== -1; at = zip.indexOf("PK\x03\x04", at + 1)) {
    const [length, extra] = [zip.readUInt16LE(at + 26), zip.readUInt16LE(at + 28)];
    if (zip.subarray(at + 30, at + 30 + length).toString() === name)
      return at + 30 + length + extra;
  }
  throw new Error(`${name} is not in it`);
}

/** The same bytes with one of them another. */
export function flipped(zip: Buffer, at: number): Buffer {
  const copy = Buffer.from(zip);
  copy[at] = (copy[at] ?? 0) ^ 0x55;
  return copy;
}

/** Every place of some bytes written over with as many others. */
export function overwritten(zip: Buffer, from: string, to: string): Buffer {
  if (from.length !== to.length) throw new Error("as many bytes as before");
  return Buffer.from(zip.toString("latin1").replaceAll(from, to), "latin1");
}
