import { Decimal } from "decimal.js";
import type { Actor } from "./actor.ts";
import { gramsOf, type KeptLot } from "./ledger.ts";

/** Something is taken out of a bag for trials. */
export async function take(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const lot = actor.anyLot();
  if (!lot) return;
  const grams = gramsOf(actor.random, 40);
  const json = { grams: grams.toFixed(), why: actor.words("For trials") };
  // The same form twice at once takes once.
  const twice = actor.chance(0.2);
  const sent = { json, ...(twice && { key: actor.words("double tap") }) };
  const path = `/lots/${lot.id}/uses`;
  const [used, again] = await Promise.all([
    person.send(path, sent),
    twice ? person.send(path, sent) : undefined,
  ]);
  if (again) world.traffic.expect(again, 201);
  if (!world.traffic.expect(used, 201)) return;
  world.ledger.move(lot, grams.neg());
  world.traffic.did("took from a bag");
}

/** A bag is weighed; what is somebody's alone is short by just what they make up. */
export async function count(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const lot = actor.anyLot();
  if (!lot) return;
  const found = foundIn(actor, lot);
  const json = { grams: found.toFixed(), why: "" };
  const counted = await person.send(`/lots/${lot.id}/counts`, { json });
  if (!world.traffic.expect(counted, 201)) return;
  settle(actor, lot, { found, difference: String(counted.json.difference) });
}

/** A sheet of several bags at once. */
export async function countSheet(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const lots = [...new Set([actor.anyLot(), actor.anyLot(), actor.anyLot()])].filter(
    (lot) => lot !== undefined,
  );
  const found = lots.map((lot) => foundIn(actor, lot));
  const counts = lots.map(({ id }, place) => ({ lot: id, grams: found[place]?.toFixed() }));
  const counted = await person.send("/stock/counts", { json: { counts } });
  if (!world.traffic.expect(counted, 201)) return;
  const items = counted.json.items as { lot: string; difference: string }[];
  for (const [place, lot] of lots.entries()) {
    const item = items.find((each) => each.lot === lot.id);
    const grams = found[place];
    if (item && grams) settle(actor, lot, { found: grams, difference: item.difference });
    else world.traffic.fault(`a sheet of counts left out ${lot.id}`);
  }
}

/** About what should be there, so that a bag never runs out within a run. */
const foundIn = (actor: Actor, lot: KeptLot): Decimal =>
  Decimal.max(0, lot.left.minus(actor.below(100)).plus(gramsOf(actor.random, 50)));

function settle(
  { place, world }: Actor,
  lot: KeptLot,
  { found, difference }: { found: Decimal; difference: string },
): void {
  if (lot.keeper === place && !lot.left.plus(difference).eq(found))
    world.traffic.fault(
      `${lot.id}, which is one person's, held ${lot.left} and was told to differ by ${difference} from ${found}`,
    );
  world.ledger.move(lot, new Decimal(difference));
  lot.counts.push(found.toFixed());
  world.traffic.did("counted a bag");
}
