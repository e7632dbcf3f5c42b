import { foldName } from "./names.ts";

type Named = { id: string; name: string };

/** What may stand before an @ that calls somebody: nothing that an e-mail address has there. */
const callsFrom = /(?<![\p{L}\p{N}\p{M}._%+-])@(?=[\p{L}\p{N}])/gu;

/** Longer than any name here, spaces that fold into one included. */
const longestName = 160;

/**
 * Whom a text calls by name, in the order in which it does: `@Jonah Brackley`, or `@Jonah` where
 * one person only has that first name. Case and accents make no difference, and the longest name
 * that fits is meant.
 */
export function mentionedIn(text: string, people: readonly Named[]): string[] {
  const names = namesOf(people);
  const found = [...text.matchAll(callsFrom)].flatMap(({ index }) => {
    const after = foldName(text.slice(index + 1, index + 1 + longestName));
    return names.find(([name]) => isWholeAt(after, name))?.[1] ?? [];
  });
  return [...new Set(found)];
}

/** Full names, and first names that are one person's, longest first. What two people are called is nobody's. */
function namesOf(people: readonly Named[]): [name: string, id: string][] {
  const full = ownedBy(people.map(({ id, name }) => [foldName(name), id]));
  const first = ownedBy(people.map(({ id, name }) => [foldName(name).split(" ")[0] ?? "", id]));
  return [...new Map([...first, ...full])]
    .flatMap(([name, id]): [string, string][] => (name === "" || id === null ? [] : [[name, id]]))
    .sort(([one], [other]) => other.length - one.length);
}

function ownedBy(names: readonly (readonly [string, string])[]): Map<string, string | null> {
  const owned = new Map<string, string | null>();
  for (const [name, id] of names)
    owned.set(name, owned.has(name) && owned.get(name) !== id ? null : id);
  return owned;
}

/** A name ends where its word does; an address such as @tam@… is no name. */
const isWholeAt = (after: string, name: string): boolean =>
  after.startsWith(name) && !/^(?:[\p{L}\p{N}@]|\.[\p{L}\p{N}]+@)/u.test(after.slice(name.length));
