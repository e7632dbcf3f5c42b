/**
 * The form in which names are compared: case, accents, spacing and the kind of dash make no
 * difference. “Café  Crème” and “cafe creme” are one name.
 */
export const foldName = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[\p{Pd}_]+/gu, " ")
    .replace(/\s+/gu, " ")
    .trim()
    .toLowerCase();

/** The form of a name in an address: “Mackerel Sky” is `mackerel-sky`. */
export const slugOf = (name: string): string =>
  foldName(name)
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 70)
    .replace(/-+$/, "") || "unnamed";

/** `slug`, then `slug-2`, `slug-3`, …: the addresses to try in turn. `new` is where forms are. */
export function* slugsFor(name: string): Generator<string> {
  const slug = slugOf(name);
  if (slug !== "new") yield slug;
  for (let number = 2; number <= 99; number += 1) yield `${slug}-${number}`;
}
