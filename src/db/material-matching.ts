import { asc, eq } from "drizzle-orm";
import { distance } from "fastest-levenshtein";
import type { Db } from "./client.ts";
import { findMaterialsById, findMaterialsBySlug, type MaterialOnShelf } from "./materials.ts";
import { foldName } from "./names.ts";
import { materialNames, materials } from "./schema/index.ts";
import { listTakenBack } from "./taken-back.ts";

/** One material that a typed name may mean, and why somebody has to say whether it does. */
export type Candidate = {
  material: MaterialOnShelf;
  because: string;
  /** By its own name, a name that it has elsewhere, or one that is only like it. */
  how: "name" | "elsewhere" | "likeness";
};

export type Match =
  | { kind: "sure"; material: MaterialOnShelf }
  | { kind: "ask"; candidates: Candidate[] }
  | { kind: "unknown" };

/** How many candidates anybody is asked about. */
const most = 5;

/** No name has more characters than this, however it is spelt. */
const longest = 120;

/**
 * Which material each typed name means: typed → match, equal input giving equal output.
 *
 * Sure are a slug, and a main name that no other material goes by anywhere. Everything else asks:
 * the name of another region, a word that names two materials, other word order or number, a slip
 * of the pen (Levenshtein's distance on folded names: one in four letters, two in eight, three
 * from fourteen on), and a name of which only a part was typed. Nothing is guessed.
 *
 * What came with an import that was taken back means nothing any more, unless `takenBackToo`.
 */
export async function matchMaterials(
  db: Db,
  typed: readonly string[],
  { takenBackToo = false }: { takenBackToo?: boolean } = {},
): Promise<Map<string, Match>> {
  const bySlug = await findMaterialsBySlug(
    db,
    typed.map((word) => word.trim()),
  );
  const all = typed.some((word) => !bySlug.has(word.trim())) ? await listWords(db) : [];
  const ids = [...bySlug.values(), ...all].map(({ id }) => id);
  const gone = takenBackToo ? new Set() : await listTakenBack(db, ids);
  const words = all.filter(({ id }) => !gone.has(id));
  const guesses = new Map(typed.map((word) => [word, guess(word, words)]));
  const wanted = [...guesses.values()].flatMap((found) => found.map(({ id }) => id));
  const byId = await findMaterialsById(db, wanted);
  const matchOf = (word: string): Match => {
    const named = bySlug.get(word.trim());
    if (named && !gone.has(named.id)) return { kind: "sure", material: named };
    const found = (guesses.get(word) ?? []).flatMap(({ id, ...guessed }) => {
      const material = byId.get(id);
      return material ? [{ material, ...guessed }] : [];
    });
    const [first] = found;
    if (!first) return { kind: "unknown" };
    if (first.because === sure) return { kind: "sure", material: first.material };
    return { kind: "ask", candidates: found };
  };
  return new Map(typed.map((word) => [word, matchOf(word)]));
}

/** A word that a material goes by; `elsewhere` where it is not the studio's own. */
type Word = {
  id: string;
  main: string;
  name: string;
  key: string;
  region: string;
  elsewhere: boolean;
  caution: string;
};

async function listWords(db: Db): Promise<Word[]> {
  const { id, name, nameKey, region } = materials;
  const own = await db
    .select({ id, main: name, name, key: nameKey, region })
    .from(materials)
    .orderBy(asc(nameKey));
  const others = await db
    .select({
      id,
      main: name,
      name: materialNames.name,
      key: materialNames.nameKey,
      region: materialNames.region,
      caution: materialNames.caution,
    })
    .from(materialNames)
    .innerJoin(materials, eq(materials.id, materialNames.materialId))
    .orderBy(asc(nameKey), asc(materialNames.nameKey), asc(materialNames.id));
  return [
    ...own.map((word) => ({ ...word, elsewhere: false, caution: "" })),
    ...others.map((word) => ({ ...word, elsewhere: true })),
  ];
}

type Guess = { id: string } & Pick<Candidate, "because" | "how">;

/** Stands for "no reason to ask"; no sentence is empty. */
const sure = "";

function guess(typed: string, words: readonly Word[]): Guess[] {
  const key = foldName(typed);
  if (key === "" || key.length > longest) return [];
  const exact = words.filter((word) => word.key === key);
  if (exact.length > 0) return guessExact(typed, exact);
  const near = words.flatMap((word) => {
    const likeness = likenessOf(key, word.key);
    return likeness ? [{ word, ...likeness }] : [];
  });
  near.sort((a, b) => a.rank - b.rank || Number(a.word.elsewhere) - Number(b.word.elsewhere));
  return onceEach(
    near.map(({ word, says }) => ({
      id: word.id,
      how: "likeness",
      because: `“${typed.trim()}” is not a name on the shelf. ${says} “${word.name}”${
        word.elsewhere ? `, ${elsewhere(word)}` : ""
      }.${word.caution && ` ${word.caution}`}`,
    })),
  );
}

function guessExact(typed: string, exact: readonly Word[]): Guess[] {
  const materialsMeant = new Set(exact.map(({ id }) => id));
  const own = exact.find((word) => !word.elsewhere);
  if (own && materialsMeant.size === 1) return [{ id: own.id, how: "name", because: sure }];
  const twice = materialsMeant.size > 1 ? " The word names more than one powder." : "";
  return onceEach(
    exact.map((word) => ({
      id: word.id,
      how: word.elsewhere ? "elsewhere" : "name",
      because: word.elsewhere
        ? `“${typed.trim()}” is ${elsewhere(word)}.${twice}${word.caution && ` ${word.caution}`}`
        : `“${typed.trim()}” is the studio's own name for this.${twice}`,
    })),
  );
}

const elsewhere = ({ main, region }: Word): string => `a name of ${main} elsewhere (${region})`;

/** The best reason for each material, in the order given. */
function onceEach(guesses: readonly Guess[]): Guess[] {
  const seen = new Set<string>();
  const first = guesses.filter(({ id }) => !seen.has(id) && seen.add(id));
  return first.slice(0, most);
}

type Likeness = { rank: number; says: string };

/** How a folded name is like another, the smaller the rank the more; undefined where it is not. */
function likenessOf(typed: string, name: string): Likeness | undefined {
  const [mine, theirs] = [wordsOf(typed), wordsOf(name)];
  if (mine.length === 0) return undefined;
  const [mineInOrder, theirsInOrder] = [mine.join(" "), theirs.join(" ")];
  if (mineInOrder === theirsInOrder) return { rank: 0, says: "Written a little differently it is" };
  const [mineSorted, theirsSorted] = [sorted(mine), sorted(theirs)];
  if (mineSorted === theirsSorted) return { rank: 1, says: "In another order the words are" };
  const away = Math.min(
    distance(mineInOrder, theirsInOrder),
    distance(mineSorted, theirsSorted) + 0.5,
  );
  if (away <= toleranceFor(Math.max(mineInOrder.length, theirsInOrder.length))) {
    const differ = numbersOf(typed) !== numbersOf(name);
    const says = differ
      ? "With another number, so perhaps another powder, there is"
      : "Spelt nearly like it there is";
    return { rank: 1 + away, says };
  }
  if (mine.every((word) => theirs.includes(word)))
    return { rank: 10 + theirs.length, says: "It is only a part of the name" };
  if (theirs.length > 1 && theirs.every((word) => mine.includes(word)))
    return { rank: 20 + mine.length, says: "It has more words than the name" };
  return undefined;
}

/** Letters and digits only, each word in the singular. */
const wordsOf = (key: string): string[] =>
  (key.match(/[\p{L}\p{N}]+/gu) ?? []).map((word) =>
    word.length > 3 && word.endsWith("s") && !word.endsWith("ss") ? word.slice(0, -1) : word,
  );

const sorted = (words: readonly string[]): string => [...words].sort().join(" ");

const numbersOf = (key: string): string => (key.match(/\d+/g) ?? []).join(" ");

const toleranceFor = (length: number): number =>
  length < 4 ? 0 : length < 8 ? 1 : length < 14 ? 2 : 3;
