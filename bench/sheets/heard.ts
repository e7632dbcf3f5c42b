import { drizzle } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import type { Db } from "../../src/db/client.ts";
import * as schema from "../../src/db/schema/index.ts";
import { type SlowQuery, watchQueries } from "../../src/db/slow-queries.ts";

/** A statement as the driver was asked for it. */
export type Statement = { text: string; values: unknown[]; prepare: boolean };

export type Heard = {
  db: Db;
  /** What was asked since this was called last. */
  take: () => Statement[];
  close: () => Promise<void>;
};

/** Opens a database whose statements are heard, with their values; one in a transaction is refused. */
export function openHeard(url: string): Heard {
  const client = postgres(url, { max: 1, onnotice: () => {} });
  const db = drizzle(client, { schema, casing: "snake_case" });
  let heard: Statement[] = [];
  const { unsafe } = client;
  client.unsafe = ((...given: Parameters<typeof unsafe>) => {
    const [text, values = [], options] = given;
    heard.push({ text, values: [...values], prepare: options?.prepare ?? false });
    return Reflect.apply(unsafe, client, given);
  }) as typeof unsafe;
  client.begin = () => {
    throw new Error("a transaction cannot be asked again statement by statement");
  };
  return {
    db,
    take: () => {
      const taken = heard;
      heard = [];
      return taken;
    },
    close: () => client.end(),
  };
}

/** Opens a database that tells of each statement how long it took. */
export function openTimed(url: string, tell: (asked: SlowQuery) => void) {
  const client = watchQueries(postgres(url, { max: 10, onnotice: () => {} }), {
    slowerThan: -1,
    tell,
  });
  const db: Db = drizzle(client, { schema, casing: "snake_case" });
  return { db, close: () => client.end() };
}
