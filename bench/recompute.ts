import postgres from "postgres";
import type { Database } from "../src/db/client.ts";
import { makeMany } from "../src/demo/making-many.ts";
import { startPreparing } from "../src/demo/preparing.ts";
import { openDemoStudio } from "../src/demo/studio.ts";
import { recomputeAll } from "../src/work/recomputing.ts";
import { inOwnDatabase } from "./sheets/database.ts";

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
  await openDemoStudio(
    db,
    () => startPreparing("only for this bench"),
    async () => {},
  );
  await makeMany(db, count);
  const client = postgres(url, { max: 1, onnotice: () => {} });
  await client`create table copies (like chemistries including all)`;
  await client`vacuum analyze`;
  const copying = await seconds(() => copyOutAndIn(client));
  await client`update chemistries set engine = '0.0.0'`;
  await client`vacuum analyze`;
  await client.end();
  const recomputing = await seconds(() => recomputeAll(db));
  const ratio = recomputing / copying;
  console.log(
    `${count} revisions: worked out anew in ${recomputing.toFixed(1)} s, copied out and in in ${copying.toFixed(1)} s: ${ratio.toFixed(2)} times (at most ${bound})`,
  );
  return ratio <= bound;
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
