import { meltOxides } from "../chem/restating.ts";
import type { Meaning } from "../db/understanding.ts";
import { type Asked, addressOf } from "./find-query.ts";

/** Something that narrows a search, in words, and the address without it. */
export type InForce = { says: string; without: string };

type Named = {
  maker: { name: string } | undefined;
  without: readonly { name: string; typed: string }[];
};

/** All that narrows a search, in the order of the form. */
export function inForce(asked: Asked, { maker, without }: Named): InForce[] {
  const off = (name: string, rest: readonly string[] = []) =>
    addressOf(asked, { [name]: rest, after: [] });
  const one = (name: string, says: (value: string) => string): InForce[] => {
    const value = asked[name]?.[0];
    return value === undefined ? [] : [{ says: says(value), without: off(name) }];
  };
  const powders = asked.without ?? [];
  return [
    ...one("q", (value) => `“${value}”`),
    ...one("cone", (value) => `cone ${value}`),
    ...one("use", (value) =>
      value === "functional" ? "meant for functional ware" : "decorative only",
    ),
    ...one("standing", (value) => value),
    ...one("atmosphere", (value) => value),
    ...one("surface", (value) => `surface “${value}”`),
    ...one("colour", (value) => `nearest to ${value}`),
    ...one("maker", (value) => `by ${maker?.name ?? value}`),
    ...powders.map((typed) => ({
      says: `without ${nameOf(typed, without)}`,
      without: off(
        "without",
        powders.filter((other) => other !== typed),
      ),
    })),
    ...one("stocked", () => "in a bucket that may be used now"),
    ...meltOxides.flatMap((oxide) => [
      ...one(`least.${oxide}`, (value) => `${oxide} at least ${value}`),
      ...one(`most.${oxide}`, (value) => `${oxide} at most ${value}`),
    ]),
  ];
}

const nameOf = (typed: string, without: Named["without"]): string =>
  without
    .filter((powder) => powder.typed === typed)
    .map(({ name }) => name)
    .join(" and ") || typed;

/** What a word was taken for, and where it leads to say so: other words in its place, or none. */
export type MeaningShown = Meaning & {
  instead: { says: string; href: string }[];
  without: string | undefined;
};

export function meaningsFor(asked: Asked, meanings: readonly Meaning[]): MeaningShown[] {
  const worded = (different: string, at: number) =>
    meanings
      .map(({ typed }, place) => (place === at ? different : typed))
      .filter((word) => word !== "")
      .join(" ");
  const leadTo = (q: string) => addressOf(asked, { q: q === "" ? [] : [q], after: [] });
  return meanings.map((meaning, at) => ({
    ...meaning,
    instead: meaning.words.map((word) => ({ says: word, href: leadTo(worded(word, at)) })),
    without: meaning.is === "unknown" ? leadTo(worded("", at)) : undefined,
  }));
}
