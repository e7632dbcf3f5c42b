import { sql } from "drizzle-orm";
import type { Db } from "../src/db/client.ts";

/** The rows of a raw query, whichever driver answered it. */
const rowsOf = <T>(answered: unknown): T[] =>
  (Array.isArray(answered) ? answered : (answered as { rows: T[] }).rows) as T[];

/**
 * Counts the rows of every table there is, for tests of requests that have to leave nothing.
 *
 * @param besides tables that are left out.
 * @returns what counts them, in one text, so that two countings can be compared.
 */
export async function openRowCounts(
  db: Db,
  besides: readonly string[] = [],
): Promise<() => Promise<string>> {
  const named = await db.execute(sql`
    select table_name as name from information_schema.tables
    where table_schema = 'public' and table_type = 'BASE TABLE' order by 1`);
  const names = rowsOf<{ name: string }>(named)
    .map(({ name }) => name)
    .filter((name) => !besides.includes(name));
  if (names.length === 0) throw new Error("there are no tables to count");
  const each = names.map(
    (name) => sql`select ${name}::text as name, count(*)::int as n from ${sql.identifier(name)}`,
  );
  const counting = sql.join(each, sql` union all `);
  return async () => JSON.stringify([...rowsOf(await db.execute(counting))]);
}
