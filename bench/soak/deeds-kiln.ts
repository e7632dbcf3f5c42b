import type { Actor } from "./actor.ts";

export async function fire(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const { kiln } = world.standing;
  const startedAt = "2026-01-10T08:00:00Z";
  const witness = [{ cone: "6", bendDegrees: 60 + actor.below(40) }];
  const json = { kiln, kind: "oxidation", cone: "6", startedAt, witness };
  const fired = await person.send("/firings", { json });
  if (!world.traffic.expect(fired, 201)) return;
  world.firings.push(String(fired.json.id));
  world.traffic.did("fired");
}

/** A tile out of a firing, with a picture more often than not; now and then one is withdrawn. */
export async function enterTile(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipe = actor.anyRecipe();
  const firing = actor.pick(world.firings);
  if (!recipe || !firing) return;
  const { body } = world.standing;
  const revision = 1 + actor.below(recipe.revisions.size);
  const json = { revision, cone: "6", firing, body, thicknessMm: "0.8" };
  const entered = await person.send(`/recipes/${recipe.slug}/tiles`, { json });
  if (!world.traffic.expect(entered, 201)) return;
  const id = String(entered.json.id);
  recipe.tiles.add(id);
  world.traffic.did("entered a tile");
  if (actor.chance(0.6)) await hang(actor, id);
  if (actor.chance(0.1)) {
    const why = { why: "Two tiles were mixed up." };
    const taken = await person.send(`/tiles/${id}/withdrawal`, { method: "PUT", json: why });
    if (world.traffic.expect(taken, 200)) world.traffic.did("withdrew a tile");
  }
}

async function hang(actor: Actor, tile: string): Promise<void> {
  const { person, world } = actor;
  const picture = actor.pick(world.standing.pictures);
  if (!picture) return;
  const form = new FormData();
  form.set("photo", picture, "tile.jpg");
  form.set("alt", actor.words("A tile"));
  const hung = await person.send(`/tiles/${tile}/photos`, { form });
  if (!world.traffic.expect(hung, 201)) return;
  world.traffic.did("hung a picture");
  const shown = await person.fetchBytes(`/photos/${hung.json.sha256}/200`);
  if (shown.status !== 200 || shown.bytes.length < 100)
    world.traffic.fault(`${shown.what} answered ${shown.status}, ${shown.bytes.length} bytes`);
}
