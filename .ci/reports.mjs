// Reads vitest's reports.
import { existsSync, readFileSync } from "node:fs";

/** A report's files by name; none where the run did not come as far as writing one. */
export function filesOf(path) {
  if (!existsSync(path)) return new Map();
  const { testResults } = JSON.parse(readFileSync(path, "utf8"));
  return new Map(testResults.map((file) => [file.name, file]));
}

/** What failed in a file, each with its reason: its tests, or the file as a whole. */
export function failuresOf({ name, status, message, assertionResults }) {
  const failed = assertionResults.filter((test) => test.status === "failed");
  if (failed.length === 0) return status === "failed" ? [{ what: name, why: message }] : [];
  return failed.map(({ fullName, failureMessages }) => ({
    what: `${name}: ${fullName}`,
    why: failureMessages.map(withoutLibraries).join("\n  "),
  }));
}

const withoutLibraries = (message) =>
  message
    .split("\n")
    .filter((line) => !line.includes("node_modules"))
    .join("\n");
