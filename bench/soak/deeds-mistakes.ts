import type { Actor } from "./actor.ts";
import type { Answer } from "./person.ts";

type Mistake = (actor: Actor) => Promise<{ answer: Answer | undefined; right: number[] }>;

const bodies = ["{", "[]", "null", '"x"', '{"name":5}', '{"name":"","revision":{}}', ""];

/** What people and their programs get wrong, and how it has to be answered. */
const mistakes: readonly Mistake[] = [
  async (actor) => ({
    answer: await actor.person.send("/recipes", {
      body: actor.pick(bodies) ?? "{",
      type: "application/json",
    }),
    right: [400, 415, 422],
  }),
  async ({ person }) => ({
    answer: await person.send("/recipes", { body: "hello", type: "text/csv" }),
    right: [415, 422],
  }),
  async ({ person }) => ({
    answer: await person.send("/recipes", {
      form: { name: "From elsewhere" },
      origin: "http://elsewhere.example",
    }),
    right: [403],
  }),
  async ({ person }) => ({
    answer: await person.send("/recipes", { json: { name: "x".repeat(70_000) } }),
    right: [413],
  }),
  async ({ person }) => ({
    answer: await person.send("/recipes/no-such-recipe/revisions", { json: {} }),
    right: [404],
  }),
  async ({ person }) => ({ answer: await person.send("/lots/no-id"), right: [404] }),
  async ({ person }) => ({
    answer: await person.send("/stock/counts", { json: { counts: [{ lot: "x", grams: "-1" }] } }),
    right: [422],
  }),
  async (actor) => {
    const lot = actor.anyLot();
    const json = { grams: "NaN", why: "" };
    const answer = lot && (await actor.person.send(`/lots/${lot.id}/uses`, { json }));
    return { answer, right: [422] };
  },
  async (actor) => {
    const recipe = actor.anyRecipe();
    const json = { basedOn: 1, lines: [{ part: "base", material: "no-powder", amount: "1" }] };
    const at = `/recipes/${recipe?.slug}/revisions`;
    const answer = recipe && (await actor.person.send(at, { json }));
    return { answer, right: [403, 422] };
  },
  // The same key with something else in it: neither is carried out twice, nor the second at all.
  async (actor) => {
    const recipe = actor.anyRecipe();
    if (!recipe) return { answer: undefined, right: [] };
    const key = actor.words("key");
    const at = `/recipes/${recipe.slug}/notes`;
    const put = await actor.person.send(at, { json: { text: actor.words("Said once") }, key });
    if (put.status === 201) recipe.notes.add(String(put.json.id));
    const answer = await actor.person.send(at, { json: { text: actor.words("Twice") }, key });
    return { answer, right: [422] };
  },
  async (actor) => {
    const recipe = actor.anyRecipe();
    if (recipe?.owner === actor.person.name || actor.person.role === "manager")
      return { answer: undefined, right: [] };
    const at = `/recipes/${recipe?.slug}/withdrawal`;
    const json = { why: "I do not like it." };
    const answer = recipe && (await actor.person.send(at, { method: "PUT", json }));
    return { answer, right: [403] };
  },
];

/** Makes one mistake, which has to be refused in words. */
export async function mistake(actor: Actor): Promise<void> {
  const { traffic } = actor.world;
  const { answer, right } = (await actor.pick(mistakes)?.(actor)) ?? { right: [] };
  if (!answer) return;
  if (traffic.expect(answer, ...right)) traffic.did("was refused in words");
  if (answer.status >= 400 && answer.status < 500 && !answer.json.title)
    traffic.fault(`${answer.what} was refused without a word: ${answer.text.slice(0, 100)}`);
}

/** A visitor tries what is for people of the studio. */
export async function knock(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const path = actor.pick(["/stock", "/buckets", "/account", "/export"]) ?? "/stock";
  if (world.traffic.expect(await person.send(path), 401)) world.traffic.did("was sent away");
  if (!actor.chance(0.1)) return;
  const json = { email: `nobody-${actor.below(1_000_000)}@saltmarsh.example`, password: "a guess" };
  world.traffic.expect(await person.send("/session", { json }), 401, 429);
}
