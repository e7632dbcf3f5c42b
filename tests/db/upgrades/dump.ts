/** A row of an answer: everything in it was asked for as text. */
export type Asked = Record<string, string>;

/** What fills itself or passes: sessions and answers lapse. */
const left = ["sessions", "answers", "sign_in_attempts"];

/** A kiln's readings are long, and nothing refers to them: one log of them is enough. */
const shortest = "select log_id from firing_readings order by octet_length(packed), log_id limit 1";
const few: Readonly<Record<string, string>> = {
  firing_readings: `where log_id = (${shortest})`,
  firing_logs: `where id = (${shortest})`,
};

/**
 * All rows of a database as inserts, in the order of the tables' names and of the rows' own text. They go
 * into a database whose triggers are off, as those of any dump do.
 */
export async function dumpOf(ask: (query: string) => Promise<Asked[]>): Promise<string> {
  const columns = await ask(`
    select table_name as name, string_agg(quote_ident(column_name), ', ' order by ordinal_position) as columns,
      string_agg(format('quote_nullable(%I::text)', column_name), ', ' order by ordinal_position) as quoted
    from information_schema.columns join information_schema.tables using (table_schema, table_name)
    where table_schema = 'public' and table_type = 'BASE TABLE' and is_generated = 'NEVER'
    group by table_name order by table_name`);
  const statements: string[] = [];
  for (const { name = "", columns: listed, quoted } of columns) {
    if (left.includes(name) || name === "events") continue;
    const rows = await ask(
      `select concat_ws(',', ${quoted}) as row from (select * from "${name}" ${few[name] ?? ""}) as rows order by 1`,
    );
    if (rows.length === 0) continue;
    const values = rows.map(({ row }) => `(${row})`).join(",\n");
    statements.push(`insert into "${name}" (${listed}) values\n${values};\n`);
  }
  return `${statements.join("")}${await eventsOf(ask)}`;
}

/** An event's text says all that its columns say, in half the room; each names the hash of the one before. */
async function eventsOf(ask: (query: string) => Promise<Asked[]>): Promise<string> {
  const rows = await ask(`select quote_literal(text) as row from "events" order by seq`);
  return `insert into "events" (seq, id, at, by, kind, subject, subject_id, text, previous, hash)
select (e ->> 'seq')::bigint, (e ->> 'id')::uuid, (e ->> 'at')::timestamptz, (e ->> 'by')::uuid, e ->> 'kind',
  e ->> 'subject', (e ->> 'subjectId')::uuid, text, e ->> 'previous', encode(sha256(convert_to(text, 'UTF8')), 'hex')
from (values\n${rows.map(({ row }) => `(${row})`).join(",\n")}) as texts (text), lateral (select text::jsonb as e) as told;
`;
}
