import type { Actor } from "./actor.ts";

const lists = ["/recipes", "/tiles", "/materials", "/firings", "/families", "/pairs"];
const inside = ["/trials", "/stock", "/buckets", "/waiting", "/rounds", "/plans", "/"];
const managed = ["/people", "/events", "/studio/data", "/imports"];
const asked = ["slack water", "slak", "feldspar", "marta", "iron gloss", "fork", "dip"];

/** Pages and JSON by turns. */
const asPage = (actor: Actor) => ({
  accept: actor.chance(0.5) ? "text/html" : "application/json",
});

export async function search(actor: Actor): Promise<void> {
  const query = new URLSearchParams({
    ...(actor.chance(0.8) && { q: actor.pick(asked) ?? "" }),
    ...(actor.chance(0.4) && { cone: "6" }),
    ...(actor.chance(0.3) && { use: "decorative" }),
    ...(actor.chance(0.3) && { "least.SiO2": "2.5" }),
    ...(actor.chance(0.2) && { counts: "1" }),
  });
  const found = await actor.person.send(`/recipes?${query}`, asPage(actor));
  if (actor.world.traffic.expect(found, 200)) actor.world.traffic.did("searched");
}

export async function readList(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const more = person.role === "manager" ? [...inside, ...managed] : inside;
  const list = actor.pick(person.signedIn ? [...lists, ...more] : lists) ?? "/recipes";
  const { accept } = asPage(actor);
  // The front desk and the record have no JSON of the same shape for everybody.
  const page = await person.send(list, { accept: list === "/" ? "text/html" : accept });
  if (world.traffic.expect(page, 200, 302, 303)) world.traffic.did("read a list");
}

export async function readRecipe(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const recipe = actor.anyRecipe();
  if (!recipe) return;
  const parts = ["", "", "/history", "/batch", "/nearest", "/handout", "/revisions"];
  const part = actor.pick(person.signedIn ? parts : parts.slice(0, 2)) ?? "";
  const page = await person.send(`/recipes/${recipe.slug}${part}`, asPage(actor));
  if (world.traffic.expect(page, 200)) world.traffic.did("read a recipe");
}

/** Opens the feed of what waits for them once, then reads it as a feed reader does. */
export async function readFeed(actor: Actor): Promise<void> {
  const { person, world } = actor;
  if (!actor.feed) {
    const opened = await person.send("/account/feed", { json: {} });
    if (!world.traffic.expect(opened, 201)) return;
    actor.feed = new URL(String(opened.json.link)).pathname;
  }
  const feed = await person.send(actor.feed, { accept: "application/atom+xml" });
  if (!world.traffic.expect(feed, 200)) return;
  if (!feed.text.trimEnd().endsWith("</feed>")) world.traffic.fault("a feed was cut short");
  world.traffic.did("read a feed");
}

/** A manager takes the library along, at most once in twenty seconds of the whole studio. */
export async function takeExport(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const now = performance.now();
  if (now - world.exportedAt < 20_000) return;
  world.exportedAt = now;
  const { status, what, bytes } = await person.fetchBytes("/export");
  const ending = bytes.subarray(-22);
  const isWhole = bytes[0] === 0x50 && ending[0] === 0x50 && ending[2] === 0x05;
  if (status !== 200 || !isWhole)
    world.traffic.fault(`${what} answered ${status} with ${bytes.length} bytes, which are no zip`);
  else world.traffic.did("took an export");
}
