import { isNull, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { events, people, pictures, recipes, revisions } from "./schema/index.ts";

/** What a database is: its engine's version, and how much room it takes, bytes. */
export type DatabaseFacts = {
  version: string;
  bytes: number;
  /** The biggest first, each with its indexes and what is kept beside it. */
  tables: { name: string; bytes: number }[];
};

/** How much of what there is; people are those who have not left. */
export type Held = {
  recipes: number;
  revisions: number;
  people: number;
  pictures: number;
  events: number;
};

/** The engine's version and the size of the database with its `most` biggest tables. */
export async function findDatabaseFacts(db: Db, most: number): Promise<DatabaseFacts> {
  const [all] = await db
    .select({
      version: sql<string>`current_setting('server_version')`,
      bytes: sql`pg_database_size(current_database())`.mapWith(Number),
    })
    .from(sql`(values (1)) as once`);
  const tables = await db
    .select({
      name: sql<string>`relname`,
      bytes: sql`pg_total_relation_size(oid)`.mapWith(Number),
    })
    .from(sql`pg_class`)
    .where(sql`relkind = 'r' and relnamespace = 'public'::regnamespace`)
    .orderBy(sql`pg_total_relation_size(oid) desc, relname`)
    .limit(most);
  return { version: all?.version ?? "", bytes: all?.bytes ?? 0, tables };
}

/** Counts what the studio holds. */
export async function countHeld(db: Db): Promise<Held> {
  return {
    recipes: await db.$count(recipes),
    revisions: await db.$count(revisions),
    people: await db.$count(people, isNull(people.removedAt)),
    pictures: await db.$count(pictures),
    events: await db.$count(events),
  };
}
