import { sql } from "drizzle-orm";
import { apart } from "../src/chem/nearest.ts";
import { type Moles, meltOxides } from "../src/chem/restating.ts";
import type { Database } from "../src/db/client.ts";
import { listNearest } from "../src/db/nearest.ts";
import { makeMany } from "../src/demo/making-many.ts";
import { inOwnDatabase } from "./sheets/database.ts";
import { fillDemo } from "./sheets/library.ts";
import { handOn } from "./sheets/result.ts";

/**
 * The ten nearest in chemistry among twenty thousand recipes through the index, against the same
 * search with the index switched off, which reads every recipe's chemistry.
 *
 *     TEST_DATABASE_URL=postgres://… node --import tsx bench/nearest.ts [recipes, 20000]
 *
 * The bound: through the index it takes at most three tenths of the time.
 */
const bound = 0.3;
const count = Number(process.argv[2] ?? 20_000);
const rounds = 30;

/** The id of no recipe. */
const nobody = "00000000-0000-0000-0000-000000000000";

await inOwnDatabase(measure);

async function measure({ db }: Database): Promise<boolean> {
  await fillDemo(db);
  await makeMany(db, count);
  await db.execute(sql`analyze`);
  const targets = await someFormulas(db);
  const nearest = (on: Db, to: Moles) =>
    listNearest(on, { to, reader: undefined, besides: nobody, limit: 10 });
  const times = { indexed: [] as number[], whole: [] as number[] };
  for (const to of targets) {
    const indexed = await timed(() => nearest(db, to));
    const whole = await db.transaction(async (tx) => {
      await tx.execute(sql`set local enable_indexscan = off`);
      await tx.execute(sql`set local enable_bitmapscan = off`);
      return timed(() => nearest(tx, to));
    });
    const far = (found: typeof indexed.of) => found.map(({ unity }) => apart(to, unity).toFixed(9));
    if (far(indexed.of).join() !== far(whole.of).join())
      throw new Error("the two searches do not answer the same");
    times.indexed.push(indexed.took);
    times.whole.push(whole.took);
  }
  const [indexed, whole] = [median(times.indexed), median(times.whole)];
  return handOn(
    {
      ...{ what: "the ten nearest in chemistry", against: "the same with the index switched off" },
      ...{ size: `${count} recipes`, ratio: indexed / whole, bound: { most: bound } },
    },
    `${indexed.toFixed(2)} ms beside ${whole.toFixed(2)}`,
  );
}

type Db = Database["db"];

/** Formulas that recipes have, each a little moved. */
async function someFormulas(db: Db): Promise<Moles[]> {
  const found = await listNearest(db, {
    to: { SiO2: 3, Al2O3: 0.35 },
    reader: undefined,
    besides: nobody,
    limit: rounds,
  });
  return found.map(({ unity }, at) =>
    Object.fromEntries(
      meltOxides.map((oxide) => [oxide, (unity[oxide] ?? 0) * (0.9 + (0.2 * at) / rounds)]),
    ),
  );
}

async function timed<T>(work: () => Promise<T>): Promise<{ of: T; took: number }> {
  const start = performance.now();
  return { of: await work(), took: performance.now() - start };
}

function median(times: number[]): number {
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
}
