import type postgres from "postgres";

/**
 * Repeats the record's events until there are so many: pages read them as they are, and only the
 * check of the record would tell that they are not chained.
 */
export async function repeatEvents(sql: postgres.Sql, count: number): Promise<void> {
  const [row] = await sql<{ events: number; last: number }[]>`
    select count(*)::int as events, max(seq)::int as last from events`;
  if (!row || row.events === 0) throw new Error("there is nothing to repeat");
  const times = Math.ceil((count - row.events) / row.events);
  if (times > 0)
    await sql`
      insert into events (seq, id, at, by, kind, subject, subject_id, text, previous, hash)
      select ${row.last} + row_number() over (order by time, seq), gen_random_uuid(), at, by, kind,
        subject, subject_id, text, previous, hash
      from events cross join generate_series(1, ${times}::int) as time
      order by time, seq limit greatest(0, ${count - row.events})`;
  await sql`vacuum analyze events`;
}
