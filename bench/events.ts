import postgres from "postgres";
import { v7 as uuidv7 } from "uuid";
import { appendEvent } from "../src/db/events.ts";
import { openPostgres } from "../src/db/postgres.ts";

/**
 * Events that eight writers chain at once, each in a transaction of its own, against the same rows
 * inserted at once without a chain: the lock that keeps the chain whole lets one writer in at a time,
 * so this is the most that the studio can write in a second, whatever the number of instances.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/events.ts [events, 2000]
 */
const bound = 8;
const count = Number(process.argv[2] ?? 2000);
const server = process.env.TEST_DATABASE_URL;
const writers = 8;

if (!server) {
  console.log("left out: set TEST_DATABASE_URL to a Postgres where a database can be made");
} else {
  process.exitCode = await measure(server);
}

async function measure(serverUrl: string): Promise<number> {
  const name = `bucket_bench_${process.pid}`;
  const admin = postgres(serverUrl, { max: 1, onnotice: () => {} });
  await admin`create database ${admin(name)}`;
  const url = new URL(serverUrl);
  url.pathname = `/${name}`;
  const database = await openPostgres(url.href);
  const bare = postgres(url.href, { max: writers, onnotice: () => {} });
  try {
    const act = { by: null, at: new Date("2026-01-05T09:00:00Z") };
    const chained = await seconds(() => {
      const happening = { kind: "measured", subject: "studio", subjectId: uuidv7() } as const;
      return database.db.transaction((tx) => appendEvent(tx, act, happening));
    });
    await bare`create table unchained (like events including all)`;
    const [row] = await bare`select * from events order by seq limit 1`;
    let seq = 0;
    const alone = await seconds(() =>
      bare.begin((tx) => tx`insert into unchained ${tx({ ...row, seq: ++seq, id: uuidv7() })}`),
    );
    const ratio = chained / alone;
    const perSecond = (count / chained).toFixed(0);
    console.log(
      `${count} events by ${writers} writers: chained ${perSecond} a second, ${ratio.toFixed(2)} times as long as without a chain (at most ${bound})`,
    );
    return ratio <= bound ? 0 : 1;
  } finally {
    await bare.end();
    await database.close();
    await admin`drop database ${admin(name)} with (force)`;
    await admin.end();
  }
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
