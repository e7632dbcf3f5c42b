import type { Actor } from "./actor.ts";
import type { KeptRecipe } from "./ledger.ts";
import type { Answer } from "./person.ts";

const revisionOf = (actor: Actor, message: string) => ({
  message,
  lines: [
    ["base", "potash-feldspar", 30 + actor.below(20)],
    ["base", "whiting", 15 + actor.below(10)],
    ["base", "quartz", 20 + actor.below(10)],
    ["base", "kaolin", 10 + actor.below(10)],
    ...(actor.chance(0.5) ? [["addition", "red-iron-oxide", 1 + actor.below(5)]] : []),
  ].map(([part, material, amount]) => ({
    part,
    material,
    amount: `${amount}.${actor.below(100)}`,
  })),
  use: actor.chance(0.2) ? "functional" : "decorative",
  cones: { low: "6", high: actor.chance(0.5) ? "6" : "7" },
  atmosphere: "oxidation",
  surface: actor.pick(["gloss", "matt", "satin"]) ?? "gloss",
  about: "Dip for two seconds, and let it dry overnight.",
});

/** A recipe of one's own; now and then the form is sent twice at once, and makes one all the same. */
export async function publish(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const message = actor.words("first try");
  const shownTo = actor.pick(["public", "public", "studio", "private"]) ?? "public";
  const json = { name: actor.words("Slack Water"), shownTo, revision: revisionOf(actor, message) };
  const twice = actor.chance(0.3);
  const sent = { json, ...(twice && { key: actor.words("double tap") }) };
  const [first, second] = await Promise.all([
    person.send("/recipes", sent),
    twice ? person.send("/recipes", sent) : undefined,
  ]);
  if (!world.traffic.expect(first, 201)) return;
  if (second && world.traffic.expect(second, 201)) {
    if (second.json.slug !== first.json.slug)
      world.traffic.fault(`a double tap made ${first.json.slug} and ${second.json.slug}`);
    world.traffic.did("tapped twice");
  }
  world.ledger.newRecipe(String(first.json.slug), { owner: person.name, shownTo, message });
  world.traffic.did("published");
}

export async function fork(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const origin = actor.anyRecipe();
  if (!origin) return;
  const message = actor.words("my own way");
  const json = { name: actor.words("Fork"), message };
  const forked = await person.send(`/recipes/${origin.slug}/forks`, { json });
  if (!world.traffic.expect(forked, 201)) return;
  const { shownTo } = origin;
  world.ledger.newRecipe(String(forked.json.slug), { owner: person.name, shownTo, message });
  world.traffic.did("forked");
}

/** The next revision of what was just read, and somebody may have been faster. */
export async function revise(actor: Actor): Promise<void> {
  const recipe = actor.ownRecipe();
  const head = recipe && (await readHead(actor, recipe));
  if (head) await tryRevision(actor, recipe, head);
}

/** Three at once from the same head: one of them gets it, or somebody else did. */
export async function race(actor: Actor): Promise<void> {
  const recipe = actor.ownRecipe();
  const head = recipe && (await readHead(actor, recipe));
  if (!head) return;
  const tries = await Promise.all([1, 2, 3].map(() => tryRevision(actor, recipe, head)));
  const winners = tries.filter(({ status }) => status === 201).length;
  if (winners > 1) actor.world.traffic.fault(`${winners} won ${recipe.slug} after ${head}`);
  actor.world.traffic.did("raced");
}

async function readHead(actor: Actor, recipe: KeptRecipe): Promise<number | undefined> {
  const read = await actor.person.send(`/recipes/${recipe.slug}`);
  if (!actor.world.traffic.expect(read, 200)) return undefined;
  return (read.json.head as { number: number }).number;
}

async function tryRevision(actor: Actor, recipe: KeptRecipe, basedOn: number): Promise<Answer> {
  const { traffic } = actor.world;
  const message = actor.words("next try");
  const json = { ...revisionOf(actor, message), basedOn };
  const answer = await actor.person.send(`/recipes/${recipe.slug}/revisions`, { json });
  if (!traffic.expect(answer, 201, 409)) return answer;
  if (answer.status === 409) {
    recipe.lost.add(basedOn);
    traffic.did("came too late");
    return answer;
  }
  if (recipe.revisions.has(basedOn + 1))
    traffic.fault(`${recipe.slug} was told twice that revision ${basedOn + 1} is there`);
  recipe.revisions.set(basedOn + 1, { message, basedOn });
  traffic.did("revised");
  return answer;
}

/** Taken back and, at once, put forward again by the same hand. */
export async function withdraw(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipe = actor.ownRecipe();
  if (!recipe) return;
  const path = `/recipes/${recipe.slug}/withdrawal`;
  const json = { why: "It runs on the third shelf." };
  const taken = await person.send(path, { method: "PUT", json });
  // Somebody else who may has just taken it back as well.
  if (!world.traffic.expect(taken, 200, 422) || taken.status === 422) return;
  world.traffic.did("withdrawn");
  if (actor.chance(0.2)) return;
  const forward = await person.send(path, { method: "DELETE", json });
  world.traffic.expect(forward, 200, 422);
}
