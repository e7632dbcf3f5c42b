import { sql } from "drizzle-orm";
import { drizzle } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import { afterAll, describe, expect, inject, it } from "vitest";
import { type SlowQuery, watchQueries } from "../../src/db/slow-queries.ts";

/** The embedded engine has no connections to wait for, and nobody runs a studio on it. */
const onPostgres = process.env.BUCKET_ENGINE === "postgres";

describe.skipIf(!onPostgres)("statements that take long", () => {
  const told: SlowQuery[] = [];
  const client = onPostgres
    ? watchQueries(postgres(inject("server"), { max: 1, onnotice: () => {} }), {
        slowerThan: 20,
        tell: (slow) => told.push(slow),
      })
    : undefined;
  afterAll(() => client?.end());
  const slow = sql`select pg_sleep(${0.06}), ${"what somebody typed"}::text`;

  const toldWhile = async (work: () => Promise<unknown>) => {
    told.length = 0;
    await work();
    return told.map(({ query, milliseconds }) => {
      expect(milliseconds).toBeGreaterThan(20);
      return query;
    });
  };

  it("are told of without their values, in a transaction and below it too", async () => {
    if (!client) throw new Error("no Postgres");
    const db = drizzle(client);
    const query = "select pg_sleep($1), $2::text";
    expect(await toldWhile(() => db.execute(slow))).toEqual([query]);
    expect(
      await toldWhile(() =>
        db.transaction(async (tx) => {
          await tx.execute(slow);
          await tx.transaction((inner) => inner.execute(slow));
        }),
      ),
    ).toEqual([query, query]);
  });

  it("are told of where they fail, and fail all the same", async () => {
    if (!client) throw new Error("no Postgres");
    const db = drizzle(client);
    const failing = sql`select 1 / (length(pg_sleep(0.06)::text))`;
    expect(await toldWhile(() => expect(db.execute(failing)).rejects.toThrow())).toHaveLength(1);
  });
});
