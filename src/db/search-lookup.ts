import { type SQL, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { readableHead } from "./library-narrowing.ts";
import type { Reader } from "./recipes.ts";
import {
  materialNames,
  materials,
  people,
  recipeHeads,
  recipeWords,
  spellings,
} from "./schema/index.ts";

/** What is known of a typed word, as far as the reader may know of what it is in. */
export type LookedUp = {
  /** One of the words that are in every text, such as "the". */
  common: boolean;
  /** A recipe has the word, or its stem. */
  found: boolean;
  /** Where none has: one has a word that begins with it. */
  begun: boolean;
  /** Where none has: words like it that a recipe has, the likest first. */
  like: string[];
};

/** Somebody or something that goes by a name like a typed word. `names` are folded, its own first. */
export type Named = { id: string; name: string; names: string[] };
export type NamedMaterial = Named & { slug: string; called: { name: string; region: string }[] };

export type Lookup = {
  words: LookedUp[];
  materials: NamedMaterial[];
  makers: Named[];
};

/**
 * Looks up typed words (folded, letters and digits only) in one statement: in what is told of
 * recipes, among the powders by all their names, and among the makers of recipes that the reader may
 * know of. Nothing is told of any other recipe, not even that it has the word.
 */
export async function lookUp(
  db: Db,
  { typed, reader }: { typed: readonly string[]; reader: Reader },
): Promise<Lookup> {
  const words = sql`array[${sql.join(
    typed.map((word) => sql`${word}::text`),
    sql`, `,
  )}]`;
  const [row] = await db
    .select({
      words: sql<[boolean, boolean, boolean, string[] | null][]>`(${wordsOf(words, reader)})`,
      materials: sql<
        [string, string, string, string[], [string, string][]][] | null
      >`(${materialsLike(words)})`,
      makers: sql<[string, string, string][] | null>`(${makersLike(words, reader)})`,
    })
    .from(sql`(select 1) as once`);
  return {
    words: (row?.words ?? []).map(([common, found, begun, like]) => ({
      ...{ common, found, begun, like: like ?? [] },
    })),
    materials: (row?.materials ?? []).map(([id, slug, name, names, called]) => ({
      ...{ id, slug, name, names },
      called: called.map(([word, region]) => ({ name: word, region })),
    })),
    makers: (row?.makers ?? []).map(([id, name, key]) => ({ id, name, names: [key] })),
  };
}

/** How like a word of a name has to be, in trigrams; what is picked is judged letter by letter after. */
const likeEnough = sql.raw("0.35");

const told = (query: SQL, reader: Reader): SQL => sql`exists (
  select 1 from ${recipeWords} join ${recipeHeads} on ${recipeHeads.recipeId} = ${recipeWords.recipeId}
  where ${recipeWords.words} @@ (${query}) and ${readableHead(reader) ?? sql`true`})`;

const wordsOf = (words: SQL, reader: Reader): SQL => sql`
  select json_agg(json_build_array(looked.common, looked.found, looked.begun,
    case when not looked.found and not looked.begun then (
      select json_agg(spelt.word order by spelt.likeness desc, spelt.word) from (
        select ${spellings.word}, similarity(${spellings.word}, looked.word) as likeness
        from ${spellings} where ${spellings.word} % looked.word
        order by likeness desc, ${spellings.word} limit 12) as spelt
      where ${told(sql`to_tsquery('english', spelt.word)`, reader)}) end) order by looked.place)
  from (
    select typed.word, typed.place, typed.common, typed.found,
      not typed.found and length(typed.word) >= 3
        and ${told(sql`to_tsquery('simple', typed.word || ':*')`, reader)} as begun
    from (
      select each.word, each.place, numnode(to_tsquery('english', each.word)) = 0 as common,
        ${told(sql`to_tsquery('simple', each.word) || to_tsquery('english', each.word)`, reader)} as found
      from unnest(${words}) with ordinality as each(word, place) offset 0) as typed offset 0) as looked`;

const materialsLike = (words: SQL): SQL => sql`
  select json_agg(json_build_array(${materials.id}, ${materials.slug}, ${materials.name}, named.names, named.called)
    order by ${materials.nameKey}, ${materials.id})
  from ${materials} cross join lateral (
    select
      array[${materials.nameKey}::text] || coalesce(array_agg(${materialNames.nameKey}::text order by ${materialNames.nameKey}, ${materialNames.id}) filter (where ${materialNames.id} is not null), '{}') as names,
      coalesce(json_agg(json_build_array(${materialNames.name}, ${materialNames.region}) order by ${materialNames.nameKey}, ${materialNames.id}) filter (where ${materialNames.id} is not null), '[]') as called
    from (select 1) as once left join ${materialNames} on ${materialNames.materialId} = ${materials.id}) as named
  where exists (
    select 1 from unnest(named.names) as known(name), unnest(${words}) as each(word)
    where position(each.word in known.name) > 0 or word_similarity(each.word, known.name) >= ${likeEnough})`;

const makersLike = (words: SQL, reader: Reader): SQL => sql`
  select json_agg(json_build_array(${people.id}, ${people.name}, ${people.nameKey}) order by ${people.nameKey}, ${people.id})
  from ${people}
  where exists (
    select 1 from unnest(${words}) as each(word)
    where position(each.word in ${people.nameKey}) > 0
      or word_similarity(each.word, ${people.nameKey}) >= ${likeEnough})
  and exists (
    select 1 from ${recipeHeads}
    where ${recipeHeads.ownerId} = ${people.id} and ${readableHead(reader) ?? sql`true`})`;
