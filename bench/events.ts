import postgres from "postgres";
import { v7 as uuidv7 } from "uuid";
import type { Database } from "../src/db/client.ts";
import { appendEvent } from "../src/db/events.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { handOn } from "./sheets/result.ts";

/**
 * Events that eight writers chain at once, each in a transaction of its own, against the same rows
 * inserted at once without a chain: the lock that keeps the chain whole lets one writer in at a time,
 * so this is the most that the studio can write in a second, whatever the number of instances.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/events.ts [events, 2000]
 */
const bound = 8;
const count = Number(process.argv[2] ?? 2000);
const writers = 8;

await inOwnDatabase(measure);

async function measure({ db }: Database, url: string): Promise<boolean> {
  const bare = postgres(url, { max: writers, onnotice: () => {} });
  const act = { by: null, at: new Date("2026-01-05T09:00:00Z") };
  const chained = await seconds(() => {
    const happening = { kind: "measured", subject: "studio", subjectId: uuidv7() } as const;
    return db.transaction((tx) => appendEvent(tx, act, happening));
  });
  await bare`create table unchained (like events including all)`;
  const [row] = await bare`select * from events order by seq limit 1`;
  let seq = 0;
  const alone = await seconds(() =>
    bare.begin((tx) => tx`insert into unchained ${tx({ ...row, seq: ++seq, id: uuidv7() })}`),
  );
  await bare.end();
  const perSecond = (took: number) => (count / took).toFixed(0);
  return handOn(
    {
      ...{ what: "chaining events", against: "the same rows without a chain" },
      ...{ size: `${count} events, ${writers} writers at once` },
      ...{ ratio: chained / alone, bound: { most: bound } },
    },
    `${perSecond(chained)} a second beside ${perSecond(alone)}`,
  );
}

/** How long all writers together take to do so many. */
async function seconds(once: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await Promise.all(
    Array.from({ length: writers }, async () => {
      for (let done = 0; done < count / writers; done += 1) await once();
    }),
  );
  return (performance.now() - start) / 1000;
}
