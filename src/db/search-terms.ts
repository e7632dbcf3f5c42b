import { type SQL, sql } from "drizzle-orm";
import { recipeWords } from "./schema/index.ts";

/**
 * One thing that a search asks for: any of these words in what is told of a recipe, or any of these
 * people and materials as its maker or in its lines.
 */
export type Term = {
  /** Words that stand together; letters and digits only. */
  words: readonly (readonly string[])[];
  /** That a recipe's word need only begin with the word that was typed. */
  begins: boolean;
  ids: readonly string[];
};

/** Where a word stands: in the name, the surface, the description. */
type Weight = "A" | "B" | "C";

/** Everything that is asked for, as one text search query. */
export const askedFor = (terms: readonly Term[]): SQL =>
  sql`${recipeWords.words} @@ (${sql.join(
    terms.map((term) => sql`(${either([...inText(term), ...byId(term)])})`),
    sql` && `,
  )})`;

/**
 * How well a recipe answers, the more the better: for each term 8 where its name has the word, 5 where
 * its maker or a material is meant, 3 for its surface, 2 for what is told about it, 1 for a note.
 */
export const pointsFor = (terms: readonly Term[]): SQL =>
  sql.join(
    terms.map((term) => {
      const within = (weight: Weight) => inText(term, weight);
      return sql`case
        ${when(within("A"), 8)} ${when(byId(term), 5)} ${when(within("B"), 3)} ${when(within("C"), 2)}
        else 1 end`;
    }),
    sql` + `,
  );

const when = (queries: readonly SQL[], points: number): SQL =>
  queries.length === 0
    ? sql``
    : sql`when ${recipeWords.words} @@ (${either(queries)}) then ${sql.raw(String(points))}`;

const either = (queries: readonly SQL[]): SQL => sql.join([...queries], sql` || `);

/** Stems as English has them, and words as they are: a name may be of words too common to have stems. */
function inText({ words, begins }: Term, weight?: Weight): SQL[] {
  const mark = `${begins ? "*" : ""}${weight ?? ""}`;
  return words.flatMap((together) => {
    const query = together.map((word) => (mark ? `${word}:${mark}` : word)).join(" & ");
    const asIs = sql`to_tsquery('simple', ${query})`;
    return begins ? [asIs] : [asIs, sql`to_tsquery('english', ${query})`];
  });
}

const byId = ({ ids }: Term): SQL[] =>
  ids.length === 0 ? [] : [sql`${ids.map((id) => `'${id}'`).join(" | ")}::tsquery`];
