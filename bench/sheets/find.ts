import { readFileSync } from "node:fs";
import type postgres from "postgres";

type Sql = postgres.Sql;

/** A statement that was written by hand, with what it asks for put in: `:name` → text. */
export function handWritten(name: string, given: Readonly<Record<string, string>> = {}): string {
  const text = readFileSync(new URL(`../sql/${name}.sql`, import.meta.url), "utf8");
  return Object.entries(given).reduce(
    (filled, [word, value]) => filled.replaceAll(`:${word}`, value),
    text.replace(/^--.*\n/gm, ""),
  );
}

/**
 * Settles everything, since nobody waits for that here, and approves one in `every`: every third of
 * those as decorative, a few past their time.
 */
export async function approveSome(sql: Sql, every: number): Promise<void> {
  await sql`update revision_standings set unsettled = false where unsettled`;
  await sql`
    with numbered as (
      select revision_id, row_number() over (order by revision_id) as n from revision_standings)
    update revision_standings s
    set "is" = 'approved', "for" = case when n % ${every * 3} = 0 then 'decorative' else 'functional' end,
      valid_until = case when n % ${every * 50} = 0 then '2026-10-30T00:00:00Z'::timestamptz
        else '2099-01-01T00:00:00Z' end
    from numbered where numbered.revision_id = s.revision_id and n % ${every} = 0 and s."is" = 'draft'`;
}

/** Spreads heads over cones, atmospheres and surfaces as a library of many years is spread. */
export async function spreadHeads(sql: Sql): Promise<void> {
  const kinds = `
    (values (0, 'reduction', '10', '10', 31), (1, 'oxidation', '04', '04', 18), (2, 'soda', '10', '11', 31)) as
    kinds(k, atmosphere, low, high, place)`;
  await sql.unsafe(`alter table revisions disable trigger all`);
  await sql.unsafe(`
    with numbered as (
      select id, row_number() over (order by id) as n from revisions)
    update revisions v set atmosphere = kinds.atmosphere, cone_low = kinds.low, cone_high = kinds.high,
      cone_low_place = kinds.place, cone_high_place = kinds.place + (kinds.high <> kinds.low)::int,
      surface = case when n % 7 = 0 then 'crystalline' else v.surface end
    from numbered, ${kinds} where numbered.id = v.id and n % 11 = kinds.k`);
  await sql.unsafe(`alter table revisions enable trigger all`);
  await sql`select keep_library_anew()`;
  await sql`vacuum analyze`;
}
