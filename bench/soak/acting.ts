import { setTimeout as pause } from "node:timers/promises";
import { mulberry32 } from "../../src/demo/random.ts";
import { Actor, type World } from "./actor.ts";
import { addBucket, mix, openBucket, useBucket } from "./deeds-buckets.ts";
import { enterTile, fire } from "./deeds-kiln.ts";
import { fork, publish, race, revise, withdraw } from "./deeds-library.ts";
import { knock, mistake } from "./deeds-mistakes.ts";
import { comeAndGo, invite, join, leave } from "./deeds-people.ts";
import { readFeed, readList, readRecipe, search, takeExport } from "./deeds-reading.ts";
import { count, countSheet, take } from "./deeds-shelf.ts";
import { answerObjection, note, review } from "./deeds-words.ts";
import type { Person, Role } from "./person.ts";

type Deed = (actor: Actor) => Promise<void>;
/** How often beside the others, and the deed. */
type Weighed = readonly [often: number, deed: Deed];

const visitors: readonly Weighed[] = [
  [3, search],
  [4, readRecipe],
  [2, readList],
  [1, knock],
  [3, join],
];

const members: readonly Weighed[] = [
  ...([
    [3, publish],
    [6, revise],
    [2, race],
    [2, fork],
    [4, note],
    [1, answerObjection],
  ] as const),
  ...([
    [1, withdraw],
    [1, fire],
    [3, enterTile],
    [4, mix],
    [4, useBucket],
    [4, take],
  ] as const),
  ...([
    [2, count],
    [1, countSheet],
    [5, search],
    [4, readList],
    [7, readRecipe],
  ] as const),
  ...([
    [1, readFeed],
    [1, comeAndGo],
    [3, mistake],
  ] as const),
];

const reviewers: readonly Weighed[] = [...members, [12, review]];

const managers: readonly Weighed[] = [
  ...reviewers,
  ...([
    [4, addBucket],
    [8, mix],
    [5, openBucket],
    [3, invite],
    [1, takeExport],
  ] as const),
];

const deedsOf: Record<Role | "visitor", readonly Weighed[]> = {
  visitor: visitors,
  member: members,
  reviewer: reviewers,
  manager: managers,
};

/** Of ten, one manages, one reviews and one place is for newcomers, who come and go. */
export const roleAt = (place: number): Role | "newcomer" =>
  (["manager", "reviewer", "newcomer"] as const)[place % 10] ?? "member";

/** Holds everybody still for a moment, so that what is measured is at rest. */
export class Gate {
  #still: Promise<void> | undefined;
  #busy = 0;
  #atRest: (() => void) | undefined;

  async pass(deed: () => Promise<void>): Promise<void> {
    await this.#still;
    this.#busy += 1;
    try {
      await deed();
    } finally {
      this.#busy -= 1;
      if (this.#busy === 0) this.#atRest?.();
    }
  }

  async held<T>(measure: () => Promise<T>): Promise<T> {
    let open = () => {};
    this.#still = new Promise((resolve) => {
      open = resolve;
    });
    if (this.#busy > 0)
      await new Promise<void>((resolve) => {
        this.#atRest = resolve;
      });
    this.#atRest = undefined;
    try {
      return await measure();
    } finally {
      this.#still = undefined;
      open();
    }
  }
}

/** One after the other until the time is over, with a pause of 50 to 250 ms after each deed. */
export async function act(
  person: Person,
  {
    place,
    world,
    gate,
    until,
    seed,
  }: { place: number; world: World; gate: Gate; until: number; seed: number },
): Promise<void> {
  const actor = new Actor(place, person, world, mulberry32(seed * 1_000 + place));
  while (performance.now() < until) {
    await gate.pass(() => next(actor));
    await pause(50 + actor.below(200));
  }
}

async function next(actor: Actor): Promise<void> {
  const isNewcomer = roleAt(actor.place) === "newcomer";
  if (isNewcomer && actor.person.signedIn && actor.chance(0.05)) return leave(actor);
  const deeds = deedsOf[actor.person.role];
  let drawn = actor.random() * deeds.reduce((sum, [often]) => sum + often, 0);
  for (const [often, deed] of deeds) {
    drawn -= often;
    if (drawn < 0) return deed(actor);
  }
}
