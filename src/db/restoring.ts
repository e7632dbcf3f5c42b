import { and, eq, getTableName, isNull, not, or, sql } from "drizzle-orm";
import type { PgTable } from "drizzle-orm/pg-core";
import type { Db } from "./client.ts";
import { type ExportRow, fieldsOf, fromJson } from "./export-fields.ts";
import { exported, type Noun } from "./export-nouns.ts";
import { events, invites, pairReviews, people, recipes, reviews, studios } from "./schema/index.ts";

/**
 * Whether nobody has ever joined and nothing is on record but the first start: the studio's settings
 * and links for its first manager.
 *
 * @returns undefined, or which noun has rows already.
 */
export async function findOccupied(db: Db): Promise<string | undefined> {
  const others = exported.filter(({ table }) => table !== studios && table !== events);
  const asked = others.map(
    ({ name, table }) => sql`select ${name}::text as noun where exists (select 1 from ${table})`,
  );
  const [found] = await db
    .select({ noun: sql<string>`noun` })
    .from(sql`(${sql.join(asked, sql` union all `)}) as occupied`)
    .limit(1);
  if (found) return found.noun;
  const [other] = await db
    .select({ seq: events.seq })
    .from(events)
    .where(or(not(eq(events.kind, "invited")), not(isNull(events.by))))
    .limit(1);
  return other && "events";
}

/** Nobody joins or does anything until this transaction ends. */
export const holdStudio = (tx: Db) =>
  tx.execute(sql`lock table ${people}, ${events} in share row exclusive mode`);

/**
 * Takes away what the first start left, so that what comes is all there is. Only the owner of the
 * tables can: the record is append-only for everybody else.
 */
export async function clearFirstStart(tx: Db): Promise<void> {
  await switchTrigger(tx, events, "keep_rows", false);
  await tx.delete(events);
  await switchTrigger(tx, events, "keep_rows", true);
  await tx.delete(invites);
  await tx.delete(studios);
}

/**
 * Whether reviews are checked as they come. Each was founded when it was given; the reviewer may have
 * left since and the evidence may be withdrawn, and it stays on record all the same.
 */
export async function checkReviews(tx: Db, checked: boolean): Promise<void> {
  await switchTrigger(tx, reviews, "reviews_are_founded", checked);
  await switchTrigger(tx, pairReviews, "pair_reviews_are_founded", checked);
}

const switchTrigger = (tx: Db, table: PgTable, trigger: string, on: boolean) =>
  tx.execute(
    sql`alter table ${sql.identifier(getTableName(table))} ${sql.raw(on ? "enable" : "disable")} trigger ${sql.identifier(trigger)}`,
  );

/** A statement takes 65,535 parameters; fewer leave room for the longest rows. */
const mostParameters = 10_000;

/** How many rows of a noun one statement takes. */
export const batchOf = (noun: Noun): number =>
  Math.max(1, Math.min(noun.batch ?? 500, Math.floor(mostParameters / fieldsOf(noun).length)));

/**
 * Puts rows in as an export has them.
 *
 * @param filling what goes into the columns that an export leaves out, by row.
 */
export async function insertRows(
  tx: Db,
  noun: Noun,
  rows: readonly ExportRow[],
  filling: (row: ExportRow) => Record<string, unknown> = () => ({}),
): Promise<void> {
  if (rows.length === 0) return;
  const fields = fieldsOf(noun);
  const values = rows.map((row) => ({
    ...Object.fromEntries(
      fields.flatMap((field) => {
        const value = row[field.name];
        return value === undefined ? [] : [[field.name, fromJson(field, value)]];
      }),
    ),
    ...filling(row),
  }));
  await tx.insert(noun.table as PgTable).values(values);
}

/** Where forks came from, once what they came from is there. */
export async function setForkedFrom(
  tx: Db,
  forks: readonly { recipeId: string; revisionId: string }[],
): Promise<void> {
  for (const { recipeId, revisionId } of forks)
    await tx
      .update(recipes)
      .set({ forkedFrom: revisionId })
      .where(and(eq(recipes.id, recipeId), isNull(recipes.forkedFrom)));
}

/** How the database says no: a name that says what has to be true, or what its owner alone may do. */
export function refusalOf(error: unknown): "not-owner" | { broken: string } | undefined {
  const cause = (error as { cause?: Record<string, unknown> }).cause;
  const code = String(cause?.code ?? "");
  if (code === "42501") return "not-owner";
  const broken = cause?.constraint_name ?? cause?.constraint;
  if (/^2[23]/.test(code)) return { broken: String(broken ?? cause?.message ?? code) };
  return undefined;
}
