import { Decimal } from "decimal.js";
import type { Actor } from "./actor.ts";
import { gramsOf, type KeptBucket } from "./ledger.ts";

type Line = { n: number; grams: string; material: { slug: string }; put: { grams: string | null } };
type Mix = { id: string; is: string; lines: Line[] };
type Bucket = { is: string; mixes: { id: string; is: string }[] };

/** A test bucket, so that any revision may be in it. */
export async function addBucket(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipes = [...world.ledger.recipes.values()].filter(({ shownTo }) => shownTo !== "private");
  const recipe = actor.pick(recipes);
  if (!recipe || world.ledger.buckets.size >= 30) return;
  const { slug } = recipe;
  const json = { recipe: slug, revision: 1, name: actor.words("Bucket"), litres: "20", test: true };
  const added = await person.send("/buckets", { json });
  if (!world.traffic.expect(added, 201)) return;
  const id = String(added.json.id);
  const read = actor.chance(0.5);
  const none = { put: new Decimal(0), uses: 0, additions: 0, readings: 0 };
  world.ledger.buckets.set(id, { id, recipe: slug, read, ...none });
  world.traffic.did("added a bucket");
}

/** Fills a bucket up: opens a mix, or weighs on at the one that is open, and finishes what is in. */
export async function mix(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const bucket = actor.anyBucket();
  const found = bucket && (await read<Bucket>(actor, `/buckets/${bucket.id}`));
  if (!found) return;
  const open = found.mixes.find(({ is }) => is === "open");
  if (open) return weigh(actor, bucket, open.id);
  if (person.role !== "manager") return;
  const json = { grams: String(500 + actor.below(1500)), scaleGrams: "1" };
  const opened = await person.send(`/buckets/${bucket.id}/mixes`, { json });
  if (!world.traffic.expect(opened, 201, 409) || opened.status === 409) return;
  world.traffic.did("opened a mix");
  await weigh(actor, bucket, String(opened.json.id));
}

/** Weighs a line or two; the key makes a double tap one tick. Some ticks are taken back. */
async function weigh(actor: Actor, bucket: KeptBucket, id: string): Promise<void> {
  const sheet = await read<Mix>(actor, `/mixes/${id}`);
  if (sheet?.is !== "open") return;
  const missing = sheet.lines.filter(({ put }) => put.grams === null);
  if (missing.length === 0) return end(actor, id);
  for (const line of missing.slice(0, 1 + actor.below(3))) await tick(actor, { bucket, id, line });
}

async function tick(
  actor: Actor,
  { bucket, id, line }: { bucket: KeptBucket; id: string; line: Line },
): Promise<void> {
  const { person, world } = actor;
  const { ledger, traffic } = world;
  const lot = actor.chance(0.9) ? actor.anyLot(line.material.slug) : undefined;
  const key = actor.words("tick of");
  const json = { grams: line.grams, key, ...(lot && { lot: lot.id }) };
  const path = `/mixes/${id}/lines/${line.n}`;
  const sent = () => person.send(path, { method: "PUT", json });
  const [put, again] = await Promise.all([sent(), actor.chance(0.2) ? sent() : undefined]);
  if (again && again.status !== put.status)
    traffic.fault(`one tick was answered ${put.status} and ${again.status}`);
  if (!traffic.expect(put, 200, 409) || put.status === 409) return;
  const grams = new Decimal(line.grams);
  bucket.put = bucket.put.plus(grams);
  if (lot) ledger.move(lot, grams.neg());
  traffic.did("weighed a line");
  if (!actor.chance(0.15)) return;
  const undone = await person.send(path, { method: "DELETE", json: { key } });
  // A manager may have finished it meanwhile.
  if (!traffic.expect(undone, 200, 409) || undone.status === 409) return;
  bucket.put = bucket.put.minus(grams);
  if (lot) ledger.move(lot, grams);
  traffic.did("took a tick back");
}

async function end(actor: Actor, id: string): Promise<void> {
  const { person, world } = actor;
  const json = { waterGrams: String(400 + actor.below(100)) };
  const ended = await person.send(`/mixes/${id}/finish`, { method: "PUT", json });
  // Who neither opened it nor manages may not; somebody may have taken a tick back, or ended it.
  const right = person.role === "manager" ? [200, 409, 422] : [403, 200, 409, 422];
  if (world.traffic.expect(ended, ...right) && ended.status === 200)
    world.traffic.did("finished a mix");
}

/** A manager opens what is mixed, holds or empties nothing that is in use. */
export async function openBucket(actor: Actor): Promise<void> {
  const bucket = actor.anyBucket();
  if (!bucket) return;
  const { traffic } = actor.world;
  const is = actor.chance(0.8) ? "open" : "hold";
  const json = { is, why: "Stirred and looked at." };
  const path = `/buckets/${bucket.id}/state`;
  const opened = await actor.person.send(path, { method: "PUT", json });
  if (traffic.expect(opened, 200, 422) && opened.status === 200)
    traffic.did(is === "open" ? "opened a bucket" : "held a bucket");
}

/** Glazes out of a bucket, measures it, or puts a little in. */
export async function useBucket(actor: Actor): Promise<void> {
  const bucket = actor.anyBucket();
  if (!bucket) return;
  const { person, world } = actor;
  const { traffic } = world;
  const at = `/buckets/${bucket.id}`;
  const drawn = actor.random();
  if (drawn < 0.5) {
    const used = await person.send(`${at}/uses`, { json: { what: actor.words("Two mugs") } });
    if (!traffic.expect(used, 201, 422) || used.status === 422) return;
    bucket.uses += 1;
    traffic.did("used a bucket");
  } else if (bucket.read && drawn < 0.75) {
    const litres = gramsOf(actor.random, 2).plus(10).toDecimalPlaces(3).toFixed();
    const json = { specificGravity: "1.45", litres, stirred: true };
    const measured = await person.send(`${at}/readings`, { json });
    if (!traffic.expect(measured, 201, 422) || measured.status === 422) return;
    bucket.readings += 1;
    traffic.did("measured a bucket");
  } else {
    const json = { what: "water", amount: "50", unit: "g" };
    const added = await person.send(`${at}/additions`, { json });
    if (!traffic.expect(added, 201, 422) || added.status === 422) return;
    bucket.additions += 1;
    traffic.did("topped a bucket up");
  }
}

async function read<T>({ person, world }: Actor, path: string): Promise<T | undefined> {
  const answer = await person.send(path);
  return world.traffic.expect(answer, 200) ? (answer.json as T) : undefined;
}
