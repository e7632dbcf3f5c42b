import type { Db } from "./client.ts";

/**
 * For what nearly every request asks: a query that is put together once, and by Postgres planned
 * once a connection. What differs from one asking to the next is a placeholder, or an argument of
 * few values, since each connection keeps a plan for each. A transaction puts together its own.
 *
 * @param make answers a query with its `.prepare()`.
 */
export function prepared<Asked extends (string | number)[], Query>(
  make: (db: Db, ...asked: Asked) => Query,
): (db: Db, ...asked: Asked) => Query {
  const made = new WeakMap<Db, Map<string, Query>>();
  return (db, ...asked) => {
    const queries = made.get(db) ?? new Map<string, Query>();
    made.set(db, queries);
    const key = asked.join(" ");
    const query = queries.get(key) ?? make(db, ...asked);
    queries.set(key, query);
    return query;
  };
}
