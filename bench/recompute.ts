import postgres from "postgres";
import type { Database } from "../src/db/client.ts";
import { makeMany } from "../src/demo/making-many.ts";
import { recomputeAll } from "../src/work/recomputing.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { fillDemo } from "./sheets/library.ts";
import { handOn } from "./sheets/result.ts";

/**
 * A whole library's chemistry worked out anew, against reading the same rows out to this process
 * and writing them into a table of the same shape: at most three times as long.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/recompute.ts [recipes, 10000]
 */
const bound = 3;
const count = Number(process.argv[2] ?? 10_000);

await inOwnDatabase(measure);

async function measure({ db }: Database, url: string): Promise<boolean> {
  await fillDemo(db);
  await makeMany(db, count);
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await client`create table copies (like chemistries including all)`;
  await client`vacuum analyze`;
  const copying = await seconds(() => copyOutAndIn(client));
  await client`update chemistries set engine = '0.0.0'`;
  await client`vacuum analyze`;
  await client.end();
  const recomputing = await seconds(() => recomputeAll(db));
  return handOn(
    {
      ...{ what: "chemistry worked out anew", against: "the same rows copied out and in" },
      ...{ size: `${count} recipes`, ratio: recomputing / copying, bound: { most: bound } },
    },
    `${recomputing.toFixed(1)} s beside ${copying.toFixed(1)}`,
  );
}

/** Each row once through this process, in the batches that working it out takes too. */
async function copyOutAndIn(client: postgres.Sql): Promise<void> {
  let after = "00000000-0000-0000-0000-000000000000";
  for (;;) {
    const rows = await client`
      select * from chemistries where revision_id > ${after} order by revision_id limit 100`;
    const last = rows.at(-1);
    if (!last) return;
    await client`insert into copies ${client([...rows])}`;
    after = last.revision_id;
  }
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}
