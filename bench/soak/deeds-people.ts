import type { Actor } from "./actor.ts";
import { inviteFor } from "./opening.ts";

/** Out and in again, with the same password. */
export async function comeAndGo(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const out = await person.signOut();
  if (!world.traffic.expect(out, 204)) return;
  const closed = await person.send("/account");
  world.traffic.expect(closed, 401);
  const back = await person.signIn();
  if (world.traffic.expect(back, 200)) world.traffic.did("signed out and in");
}

/** A manager keeps a few links at hand for newcomers. */
export async function invite(actor: Actor): Promise<void> {
  const { person, world } = actor;
  if (world.invites.length >= 3) return;
  const link = await inviteFor(person, "member");
  if (!link) return;
  world.invites.push(link);
  world.traffic.did("invited");
}

/** A newcomer joins by a link, if one is at hand. */
export async function join(actor: Actor): Promise<void> {
  const { person, world } = actor;
  const link = world.invites.pop();
  if (!link) return;
  world.people += 1;
  actor.feed = undefined;
  if (await person.join(link, `Newcomer ${world.people}`, "member")) world.traffic.did("joined");
}

/** Closes the browser for good: whoever comes next to this place is somebody else. */
export async function leave(actor: Actor): Promise<void> {
  const out = await actor.person.signOut();
  if (!actor.world.traffic.expect(out, 204)) return;
  actor.person.leave();
  actor.feed = undefined;
}
