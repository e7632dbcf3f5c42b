import { setTimeout as wait } from "node:timers/promises";
import { readMigrationFiles } from "drizzle-orm/migrator";
import type postgres from "postgres";

/**
 * Half of the second after which Postgres looks whether two wait for each other and ends one of them:
 * it is never a request that gives way.
 */
const longestMs = 500;

/** How often the tables are asked for, in a few minutes. */
const mostTries = 100;

/** What a request that changes something has before anything else, its key. */
const first = "answers";

/** They could not be had in time, or whoever else wanted them would have waited for us for good. */
const busy = new Set(["55P03", "40P01"]);

/**
 * Begins a transaction that has every table to itself, where migrations are still to come: instances of
 * the version before go on serving, and a statement of theirs that holds one table and wants the next
 * would meet a migration half-way. Each try lets whoever has begun finish,
 * takes all tables at once or lets go of them, so that a request waits and none fails; once all are
 * had, requests wait for the migration.
 *
 * @param client has one connection. What migrates commits the transaction.
 */
export async function holdStill(client: postgres.Sql, migrationsFolder: string): Promise<void> {
  if (!(await anyToCome(client, migrationsFolder))) return;
  const tables = await client<{ name: string }[]>`
    select format('%I.%I', schemaname, tablename) as name from pg_tables
    where schemaname = 'public' order by tablename <> ${first}, 1`;
  const [begun, ...others] = tables.map(({ name }) => name);
  if (begun === undefined) return;
  for (let tries = 1; ; tries += 1) {
    await client.unsafe("begin");
    try {
      // Whoever waits for us here has nothing of ours to wait for: time enough to let them finish.
      await client.unsafe("set local lock_timeout = '5s'");
      await client.unsafe(`lock table ${begun} in access exclusive mode`);
      await client.unsafe(`set local lock_timeout = '${longestMs}ms'`);
      if (others.length > 0)
        await client.unsafe(`lock table ${others.join(", ")} in access exclusive mode`);
      await client.unsafe("set local lock_timeout = 0");
      return;
    } catch (error) {
      await client.unsafe("rollback");
      const { code } = error as { code?: string };
      if (!busy.has(code ?? "") || tries === mostTries) throw error;
      await wait(50);
    }
  }
}

async function anyToCome(client: postgres.Sql, migrationsFolder: string): Promise<boolean> {
  const last = Math.max(
    ...readMigrationFiles({ migrationsFolder }).map((each) => each.folderMillis),
  );
  const [kept] = await client`select to_regclass('drizzle.__drizzle_migrations') as there`;
  if (!kept?.there) return true;
  const [done] =
    await client`select max(created_at)::float8 as at from drizzle.__drizzle_migrations`;
  return done?.at == null || done.at < last;
}
