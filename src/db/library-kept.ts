import { sql } from "drizzle-orm";
import type { Db } from "./client.ts";

/** A recipe that the library would be searched wrongly by: its name, and what of it is at fault. */
export type KeptFault = { recipe: string; what: "heads" | "words" | "spellings" };

/** Recipes of which what is kept for looking up is not what the record makes of them. */
export const findKeptFaults = (db: Db): Promise<KeptFault[]> =>
  db
    .select({ recipe: sql<string>`recipe`, what: sql<KeptFault["what"]>`what` })
    .from(
      sql`(
        select r.name as recipe, 'heads' as what, r.name_key from recipes r
        left join recipe_heads kept on kept.recipe_id = r.id
        left join recipe_heads_derived derived on derived.recipe_id = r.id
        where kept is distinct from derived
        union all
        select r.name, 'words', r.name_key from recipes r
        left join recipe_words kept on kept.recipe_id = r.id
        left join recipe_words_derived derived on derived.recipe_id = r.id
        where kept.words is distinct from derived.words
        union all
        select distinct r.name, 'spellings', r.name_key from spellings_derived derived
        join recipes r on r.id = derived.recipe_id
        where not exists (select 1 from spellings kept where kept.word = derived.word)) as faults`,
    )
    .orderBy(sql`name_key`, sql`what`);

/** Derives all of it anew, in one transaction. */
export const keepLibraryAnew = (db: Db): Promise<unknown> =>
  db.transaction((tx) => tx.execute(sql`select keep_library_anew()`));
