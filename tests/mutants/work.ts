import type { Mutant } from "./mutant.ts";

/** Bugs of what is heavy, or runs beside the requests. */
export const workMutants: readonly Mutant[] = [
  {
    name: "backups-all-go",
    file: "src/work/backup-rule.ts",
    before: "if (kept.has(period)) going.push(at);",
    after: "going.push(at);",
    breaks: "Every backup older than a week is deleted, also the last of its month.",
    tests: ["tests/work/backup-rule.test.ts"],
  },
  {
    name: "backup-for-all-eyes",
    file: "src/work/backing-up.ts",
    before: "createWriteStream(under, { mode: 0o600 })",
    after: "createWriteStream(under, { mode: 0o644 })",
    breaks: "Everybody on the machine can read a backup, with what lets people in.",
    tests: ["tests/db/backup.test.ts"],
  },
  {
    name: "half-a-backup-counts",
    file: "src/work/backing-up.ts",
    before: "await rm(under, { force: true });",
    after: "await rename(under, path);",
    breaks: "A backup that broke off lies among the whole ones.",
    tests: ["tests/db/backup.test.ts"],
  },
  {
    name: "restored-chain-not-read",
    file: "src/work/restoring.ts",
    before: "if (fault) throw new FileFault(",
    after: "if (fault && db === undefined) throw new FileFault(",
    breaks: "A record that was written anew is restored as if it were whole.",
    tests: ["tests/db/export-tampered.test.ts"],
  },
  {
    name: "restored-over-a-studio",
    file: "src/db/restoring.ts",
    before: "export async function findOccupied(",
    after:
      "export async function findOccupied(..._: unknown[]): Promise<string | undefined> {\n  return undefined;\n}\n\nexport async function wasOccupied(",
    breaks: "A studio is restored on top of another.",
    tests: ["tests/db/restore.test.ts"],
  },
  {
    name: "picture-under-another-name",
    file: "src/work/export-checking.ts",
    before: "if (sha256(await file.file(name)) !== named)",
    after: "if (sha256(await file.file(name)) === named && wanted.size < 0)",
    breaks: "A picture that was put in another's place is restored.",
    tests: ["tests/db/export-tampered.test.ts"],
  },
  {
    name: "zip-grows-without-end",
    file: "src/work/zip-reading.ts",
    before: "if (uncompressedSize > growthStartsAt + mostGrowth * compressedSize)",
    after: "if (uncompressedSize > growthStartsAt + 1e9 * compressedSize)",
    breaks: "A small zip that unpacks to gigabytes is unpacked.",
    tests: ["tests/db/export-tampered.test.ts"],
  },
  {
    name: "zip-with-anything-in-it",
    file: "src/work/zip-reading.ts",
    before: "if (listed.has(fileName)) throw",
    after: "if (listed.size < 0) throw",
    breaks: "Of two files of one name in a zip, one is checked and the other may be read.",
    tests: ["tests/db/export-tampered.test.ts"],
  },
];
