import { Decimal } from "decimal.js";
import type { World } from "./actor.ts";
import type { KeptBucket, KeptLot, KeptRecipe } from "./ledger.ts";
import type { Person } from "./person.ts";

/** What the studio answers a manager, against what its people were told is done. */
export async function checkAsked(manager: Person, { ledger, traffic }: World): Promise<void> {
  for (const recipe of ledger.recipes.values()) await checkRecipe(manager, recipe);
  for (const lot of ledger.lots.values()) await checkLot(manager, lot);
  for (const bucket of ledger.buckets.values()) await checkBucket(manager, bucket);
  const numbers = [...ledger.recipes.values()].flatMap(({ revisions }) => [...revisions]);
  if (numbers.length === 0) traffic.fault("nobody published anything");
}

type Listed = { number: number; basedOn: number | null; message: string };

/** No revision is lost, none is there that nobody made, and each follows the one before it. */
async function checkRecipe(manager: Person, recipe: KeptRecipe): Promise<void> {
  const { traffic } = manager;
  const { slug, revisions, lost } = recipe;
  const listed = await readAll<Listed>(manager, `/recipes/${slug}/revisions`);
  const oldestFirst = listed.toReversed();
  for (const [place, { number, basedOn, message }] of oldestFirst.entries()) {
    if (number !== place + 1) traffic.fault(`${slug} has a gap before revision ${number}`);
    if (basedOn !== (number === 1 ? null : number - 1))
      traffic.fault(`${slug}: revision ${number} says that it is based on ${basedOn}`);
    const kept = revisions.get(number);
    if (!kept) traffic.fault(`${slug}: nobody was told of revision ${number}`);
    else if (kept.message !== message)
      traffic.fault(`${slug}: revision ${number} is “${message}”, but “${kept.message}” was taken`);
  }
  for (const number of revisions.keys())
    if (number > listed.length) traffic.fault(`${slug}: revision ${number} is lost`);
  for (const head of lost)
    if (!revisions.has(head + 1)) traffic.fault(`${slug}: nobody won the race after ${head}`);
  const notes = await manager.send(`/recipes/${slug}/notes`);
  const there = new Set((notes.json.items as { id: string }[]).map(({ id }) => id));
  for (const id of recipe.notes) if (!there.has(id)) traffic.fault(`${slug}: note ${id} is lost`);
  const should = recipe.notes.size + recipe.objecting;
  if (there.size !== should) traffic.fault(`${slug} has ${there.size} notes instead of ${should}`);
}

type Move = { because: string; grams: string; leftGrams: string };

/** What is left is what was bought with every move that was acknowledged, exactly. */
async function checkLot(manager: Person, lot: KeptLot): Promise<void> {
  const { traffic } = manager;
  const { json } = await manager.send(`/lots/${lot.id}`);
  if (!lot.left.eq(String(json.leftGrams)))
    traffic.fault(`lot ${lot.id} has ${json.leftGrams} g, and ${lot.left} g were acknowledged`);
  const moves = json.moves as Move[];
  if (moves.length !== lot.moves)
    traffic.fault(`lot ${lot.id} moved ${moves.length} times instead of ${lot.moves}`);
  const found = moves
    .filter(({ because }) => because === "stocktake")
    .map(({ leftGrams }) => new Decimal(leftGrams).toFixed());
  // What was counted is what was left right then, whoever took from it beside.
  if (
    found.sort().join() !==
    lot.counts
      .map((grams) => new Decimal(grams).toFixed())
      .sort()
      .join()
  )
    traffic.fault(`lot ${lot.id} does not hold what was counted in it, right after it was`);
}

type Told = {
  mixes: { putGrams: string }[];
  contents: { dryGrams: string };
  used: { counted: { times: number } };
};

async function checkBucket(manager: Person, bucket: KeptBucket): Promise<void> {
  const { traffic } = manager;
  const { json } = await manager.send(`/buckets/${bucket.id}`);
  const { mixes, contents, used } = json as Told;
  const put = mixes.reduce((sum, { putGrams }) => sum.plus(putGrams), new Decimal(0));
  if (!put.eq(bucket.put))
    traffic.fault(`bucket ${bucket.id} got ${put} g, and ${bucket.put} g were acknowledged`);
  if (bucket.readings === 0 && !bucket.put.toDecimalPlaces(1).eq(contents.dryGrams))
    traffic.fault(`bucket ${bucket.id} holds ${contents.dryGrams} g instead of ${bucket.put}`);
  if (used.counted.times !== bucket.uses)
    traffic.fault(`bucket ${bucket.id} was used ${used.counted.times} times, not ${bucket.uses}`);
}

async function readAll<T>(manager: Person, path: string): Promise<T[]> {
  const all: T[] = [];
  let next: string | null = "";
  while (next !== null) {
    const page = await manager.send(next === "" ? path : `${path}?after=${next}`);
    if (!manager.traffic.expect(page, 200)) return all;
    all.push(...(page.json.items as T[]));
    next = page.json.next as string | null;
  }
  return all;
}
