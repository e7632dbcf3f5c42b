import { count } from "drizzle-orm";
import type { Db } from "../../src/db/client.ts";
import {
  bucketAdditions,
  bucketReadings,
  bucketUses,
  events,
  revisionStandings,
  revisions,
  tiles,
} from "../../src/db/schema/index.ts";
import { settleSome } from "../../src/db/standings.ts";
import { verify } from "../../src/work/verifying.ts";
import type { World } from "./actor.ts";

/**
 * What the database keeps once the server has stopped: the record verified, and as many rows and
 * events as were acknowledged.
 */
export async function checkKept(db: Db, { ledger, traffic }: World): Promise<string[]> {
  const lines: string[] = [];
  const now = new Date();
  // As it was left, and once more with everything settled that was still marked.
  const left = await verify(db, { now });
  while ((await settleSome(db, { limit: 100, now })) > 0);
  const settled = await verify(db, { now: new Date() });
  for (const { sound, lines: said } of [left, settled])
    if (!sound) for (const line of said) traffic.fault(line);
  lines.push(...settled.lines);

  const recipes = [...ledger.recipes.values()];
  const buckets = [...ledger.buckets.values()];
  const sum = (numbers: number[]) => numbers.reduce((all, each) => all + each, 0);
  const published = sum(recipes.map((recipe) => recipe.revisions.size));
  const told = {
    revisions: [await rows(db, revisions), published],
    standings: [await rows(db, revisionStandings), published],
    tiles: [await rows(db, tiles), sum(recipes.map((recipe) => recipe.tiles.size))],
    "uses of buckets": [await rows(db, bucketUses), sum(buckets.map(({ uses }) => uses))],
    "things put into buckets": [
      await rows(db, bucketAdditions),
      sum(buckets.map(({ additions }) => additions)),
    ],
    "readings of buckets": [
      await rows(db, bucketReadings),
      sum(buckets.map(({ readings }) => readings)),
    ],
  } satisfies Record<string, [number, number]>;
  const kinds = await db
    .select({ kind: events.kind, n: count() })
    .from(events)
    .groupBy(events.kind);
  const happened = (...names: string[]) =>
    sum(kinds.filter(({ kind }) => names.includes(kind)).map(({ n }) => n));
  const did = (name: string) => traffic.done.get(name) ?? 0;
  const chained = {
    "events of publishing": [happened("published", "forked", "revised"), published],
    "events of counting": [happened("lot counted"), did("counted a bag")],
    "events of taking": [happened("lot used"), did("took from a bag")],
    "events of weighing": [happened("line ticked"), did("weighed a line")],
  } satisfies Record<string, [number, number]>;
  for (const [what, [is, should]] of Object.entries({ ...told, ...chained }))
    if (is !== should) traffic.fault(`${is} ${what}, and ${should} were acknowledged`);
  return lines;
}

async function rows(
  db: Db,
  table: Parameters<ReturnType<Db["select"]>["from"]>[0],
): Promise<number> {
  const [counted] = await db.select({ n: count() }).from(table as typeof revisions);
  return counted?.n ?? 0;
}
