import type { Actor } from "./actor.ts";

/** A note, or an objection, on a recipe that one may see. */
export async function note(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipe = actor.anyRecipe();
  if (!recipe) return;
  const blocking = actor.chance(0.3);
  const json = { text: actor.words("It pools in the foot"), blocking };
  const put = await person.send(`/recipes/${recipe.slug}/notes`, { json });
  if (!world.traffic.expect(put, 201)) return;
  const id = String(put.json.id);
  recipe.notes.add(id);
  if (blocking) world.objections.push({ id, by: person.name });
  world.traffic.did(blocking ? "objected" : "noted");
}

/** An answer to one's own objection, or a manager's to anybody's. */
export async function answerObjection(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const own = world.objections.filter(({ by }) => by === person.name || person.role === "manager");
  const objection = actor.pick(own);
  if (!objection) return;
  const isOwn = objection.by === person.name;
  const json = isOwn ? { text: "Sieved, it is gone." } : { overrule: true, why: "Seen, and fine." };
  const path = `/notes/${objection.id}/answer`;
  const answered = await person.send(path, { method: "PUT", json });
  world.objections = world.objections.filter(({ id }) => id !== objection.id);
  // Another was first, where it is not one's own.
  if (world.traffic.expect(answered, 200, 409, 422) && answered.status === 200)
    world.traffic.did("answered an objection");
}

/** What a reviewer says of a head; of one's own it is refused. */
export async function review(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipe = actor.anyRecipe();
  if (!recipe) return;
  const verdict = actor.pick(["approve", "approve", "object", "remark"]) ?? "approve";
  const json = { verdict, for: "decorative", reasons: actor.words("Looked at the tile") };
  const given = await person.send(`/recipes/${recipe.slug}/reviews`, { json });
  if (person.role === "member") {
    world.traffic.expect(given, 403);
    return;
  }
  if (!world.traffic.expect(given, 201, 403, 422)) return;
  if (given.status !== 201) return;
  if (verdict === "object") recipe.objecting += 1;
  world.traffic.did(`reviewed: ${verdict}`);
}
