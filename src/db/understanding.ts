import { distance } from "fastest-levenshtein";
import type { Db } from "./client.ts";
import { foldName } from "./names.ts";
import type { Reader } from "./recipes.ts";
import {
  type LookedUp,
  type Lookup,
  lookUp,
  type Named,
  type NamedMaterial,
} from "./search-lookup.ts";
import type { Term } from "./search-terms.ts";

/** How some of what was typed was understood. */
export type Meaning = {
  typed: string;
  /** `exact` and `part` of a name or a text, a word that `begins` so, `like` one, `common`, `unknown`. */
  is: "exact" | "part" | "begins" | "like" | "common" | "unknown";
  materials: { slug: string; name: string; called: { name: string; region: string }[] }[];
  makers: { id: string; name: string }[];
  /** Words of recipes that it is like. */
  words: string[];
};

export type Understood = {
  meanings: Meaning[];
  /** What is looked for; null where a word means nothing here, so that nothing can be found. */
  terms: Term[] | null;
  /** The whole of it as a name is compared. */
  typed: string;
};

/** No more words than this are looked for. */
const most = 8;

/** What somebody typed, word by word; names of several words are known as one. */
export async function understand(
  db: Db,
  { q, reader }: { q: string; reader: Reader },
): Promise<Understood> {
  const typed = wordsOf(foldName(q)).slice(0, most);
  if (typed.length === 0) return { meanings: [], terms: null, typed: foldName(q) };
  const found = await lookUp(db, { typed, reader });
  return { ...decide(typed, found), typed: foldName(q) };
}

/**
 * What typed words mean, given what was found: the names of powders and people as they are written,
 * the longest first; else a word of a name or of a text; else the beginning of one; else what is
 * spelt most nearly like it (`slips`). Words such as "the" count only where there are no others.
 */
export function decide(typed: readonly string[], found: Lookup): Omit<Understood, "typed"> {
  const read: { meaning: Meaning; term: Term | null }[] = [];
  const onlyCommon = found.words.every(({ common }) => common);
  for (let at = 0; at < typed.length; ) {
    const name = longestName(typed.slice(at), found);
    const length = name?.length ?? 1;
    const words = typed.slice(at, at + length);
    const looked = found.words[at];
    if (name) read.push(asName(words, name));
    else if (looked) read.push(ofWord(words[0] ?? "", looked, found, onlyCommon));
    at += length;
  }
  const terms = read.flatMap(({ term }) => (term ? [term] : []));
  const lost = read.some(({ meaning }) => meaning.is === "unknown") || terms.length === 0;
  return { meanings: read.map(({ meaning }) => meaning), terms: lost ? null : terms };
}

type Whole = { length: number; materials: NamedMaterial[]; makers: Named[] };

/** The most words from the first on that are a name as it is written; a plural makes no difference. */
function longestName(typed: readonly string[], found: Lookup): Whole | undefined {
  for (let length = typed.length; length > 0; length -= 1) {
    const key = singular(typed.slice(0, length));
    const named = (each: Named) => each.names.some((name) => singular(wordsOf(name)) === key);
    const materials = found.materials.filter(named);
    const makers = found.makers.filter(named);
    if (materials.length + makers.length > 0) return { length, materials, makers };
  }
  return undefined;
}

const asName = (words: readonly string[], { materials, makers }: Whole) => ({
  meaning: meaningOf(words.join(" "), "exact", { materials, makers }),
  term: termOf([words], { materials, makers }),
});

function ofWord(typed: string, looked: LookedUp, found: Lookup, onlyCommon: boolean) {
  if (looked.common && !onlyCommon) return { meaning: meaningOf(typed, "common", {}), term: null };
  const having = pickNamed(found, (word) => word === typed || single(word) === single(typed));
  if (looked.found || count(having) > 0)
    return {
      meaning: meaningOf(typed, count(having) > 0 ? "part" : "exact", having),
      term: termOf([[typed]], having),
    };
  const begun = typed.length < 3 ? nobody : pickNamed(found, (word) => word.startsWith(typed));
  if (looked.begun || count(begun) > 0)
    return {
      meaning: meaningOf(typed, "begins", begun),
      term: { ...termOf([[typed]], begun), begins: true },
    };
  return nearest(typed, looked, found);
}

function nearest(typed: string, { like }: LookedUp, found: Lookup) {
  const away = (word: string) => distance(typed, word);
  const near = (word: string) => away(word) <= slips(typed.length);
  const names = [...found.materials, ...found.makers].flatMap(({ names }) =>
    names.flatMap(wordsOf),
  );
  const least = Math.min(...[...names, ...like].filter(near).map(away));
  if (!Number.isFinite(least)) return { meaning: meaningOf(typed, "unknown", {}), term: null };
  const meant = pickNamed(found, (word) => near(word) && away(word) === least);
  const words = like.filter((word) => away(word) === least).slice(0, 3);
  const alike = names.filter((word) => near(word) && away(word) === least);
  return {
    meaning: {
      ...meaningOf(typed, "like", meant),
      words: [...new Set([...words, ...alike])].sort(),
    },
    term: termOf(
      words.map((word) => [word]),
      meant,
    ),
  };
}

/** How many letters may be wrong, missing or too many in a word of so many; two that changed places count as two. */
const slips = (length: number): number => (length < 4 ? 0 : length < 6 ? 1 : 2);

type Meant = { materials?: readonly NamedMaterial[]; makers?: readonly Named[] };

const nobody = { materials: [], makers: [] };

const count = ({ materials = [], makers = [] }: Meant): number => materials.length + makers.length;

function pickNamed({ materials, makers }: Lookup, fits: (word: string) => boolean) {
  const has = ({ names }: Named) => names.some((name) => wordsOf(name).some(fits));
  return { materials: materials.filter(has), makers: makers.filter(has) };
}

const termOf = (words: Term["words"], { materials = [], makers = [] }: Meant): Term => ({
  words,
  begins: false,
  ids: [...materials, ...makers].map(({ id }) => id),
});

const meaningOf = (
  typed: string,
  is: Meaning["is"],
  { materials = [], makers = [] }: Meant,
): Meaning => ({
  ...{ typed, is, words: [] },
  materials: materials.map(({ slug, name, called }) => ({ slug, name, called })),
  makers: makers.map(({ id, name }) => ({ id, name })),
});

const wordsOf = (key: string): string[] => key.match(/[\p{L}\p{N}]+/gu) ?? [];

const single = (word: string): string =>
  word.length > 3 && word.endsWith("s") && !word.endsWith("ss") ? word.slice(0, -1) : word;

const singular = (words: readonly string[]): string => words.map(single).join(" ");
