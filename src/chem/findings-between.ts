import type { Finding } from "./chemistry-types.ts";

/**
 * Findings that are new from one glaze to another, and those that are gone. One of the same rule, the
 * same level and the same elements stays, whatever its figures are.
 */
export function findingsBetween(
  before: readonly Finding[],
  after: readonly Finding[],
): { come: Finding[]; go: Finding[] } {
  const [was, is] = [before.map(keyOf), after.map(keyOf)];
  return {
    come: after.filter((finding) => !was.includes(keyOf(finding))),
    go: before.filter((finding) => !is.includes(keyOf(finding))),
  };
}

const keyOf = ({ rule, level, elements = [] }: Finding): string =>
  [rule, level, ...elements].join(" ");
