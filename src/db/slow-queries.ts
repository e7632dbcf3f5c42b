import { performance } from "node:perf_hooks";
import type postgres from "postgres";

/** A statement that took long, without its values. */
export type SlowQuery = { query: string; milliseconds: number };

type Asking = Pick<postgres.Sql, "unsafe">;

/** Who is told of statements that take longer than so many milliseconds. */
export type Watched = { slowerThan: number; tell: (slow: SlowQuery) => void };

/**
 * Has a pool tell of statements that took longer than `slowerThan` milliseconds, from being asked to
 * the answer: waiting for a connection counts, since it is what a reader waits for.
 */
export function watchQueries(client: postgres.Sql, watched: Watched): postgres.Sql {
  watchAsking(client, watched);
  const { begin } = client;
  const inTransaction =
    (work: (sql: postgres.TransactionSql) => unknown) => (sql: postgres.TransactionSql) =>
      work(watchTransaction(sql, watched));
  // Called with or without options before the work.
  client.begin = ((...given: unknown[]) => {
    const work = given.pop() as (sql: postgres.TransactionSql) => unknown;
    return Reflect.apply(begin, client, [...given, inTransaction(work)]);
  }) as typeof client.begin;
  return client;
}

function watchTransaction(sql: postgres.TransactionSql, watched: Watched): postgres.TransactionSql {
  watchAsking(sql, watched);
  const { savepoint } = sql;
  sql.savepoint = ((...given: unknown[]) => {
    const work = given.pop() as (inner: postgres.TransactionSql) => unknown;
    const inner = (nested: postgres.TransactionSql) => work(watchTransaction(nested, watched));
    return Reflect.apply(savepoint, sql, [...given, inner]);
  }) as typeof sql.savepoint;
  return sql;
}

function watchAsking(client: Asking, { slowerThan, tell }: Watched): void {
  const { unsafe } = client;
  client.unsafe = ((...given: Parameters<typeof unsafe>) => {
    const asked = Reflect.apply(unsafe, client, given);
    const { then } = asked;
    let sent = false;
    const timed: typeof then = (...whoWaits) => {
      if (sent) return Reflect.apply(then, asked, whoWaits);
      sent = true;
      const start = performance.now();
      const told = () => {
        const milliseconds = performance.now() - start;
        if (milliseconds > slowerThan) tell({ query: given[0], milliseconds });
      };
      Reflect.apply(then, asked, [told, told]);
      return Reflect.apply(then, asked, whoWaits);
    };
    // biome-ignore lint/suspicious/noThenProperty: a statement is sent once somebody waits for it, which is when its clock has to start
    asked.then = timed;
    return asked;
  }) as typeof client.unsafe;
}
