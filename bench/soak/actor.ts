import type { KeptBucket, KeptLot, KeptRecipe, Ledger } from "./ledger.ts";
import type { Standing } from "./opening.ts";
import type { Person } from "./person.ts";
import type { Traffic } from "./traffic.ts";

/** What all actors share: the studio's address book, and what they were told is done. */
export type World = {
  ledger: Ledger;
  traffic: Traffic;
  standing: Standing;
  /** Links that managers made for newcomers. */
  invites: string[];
  firings: string[];
  /** Objections, by who raised them. */
  objections: { id: string; by: string }[];
  /** When an export was last asked for: seldom, since it reads everything. */
  exportedAt: number;
  people: number;
};

/** One who acts, at a place that is theirs alone. */
export class Actor {
  readonly place: number;
  readonly person: Person;
  readonly world: World;
  readonly random: () => number;
  feed: string | undefined;
  #made = 0;

  constructor(place: number, person: Person, world: World, random: () => number) {
    this.place = place;
    this.person = person;
    this.world = world;
    this.random = random;
  }

  chance(of: number): boolean {
    return this.random() < of;
  }

  below(most: number): number {
    return Math.floor(this.random() * most);
  }

  pick<T>(from: readonly T[]): T | undefined {
    return from[this.below(from.length)];
  }

  /** Words that nobody else in this run says. */
  words(what: string): string {
    this.#made += 1;
    return `${what} ${this.place}-${this.#made}`;
  }

  /** A recipe that this person may see. */
  anyRecipe(): KeptRecipe | undefined {
    const { role, name } = this.person;
    const seen = [...this.world.ledger.recipes.values()].filter(
      ({ shownTo, owner }) =>
        shownTo === "public" ||
        role === "manager" ||
        owner === name ||
        (shownTo === "studio" && role !== "visitor"),
    );
    return this.pick(seen);
  }

  /** One that they may revise. */
  ownRecipe(): KeptRecipe | undefined {
    const { role, name } = this.person;
    const own = [...this.world.ledger.recipes.values()].filter(
      ({ owner }) => owner === name || role === "manager",
    );
    return this.pick(own);
  }

  /** A bag of a powder that is everybody's or theirs. */
  anyLot(material?: string): KeptLot | undefined {
    const lots = [...this.world.ledger.lots.values()].filter(
      (lot) =>
        (lot.keeper === null || lot.keeper === this.place) &&
        (material === undefined || lot.material === material),
    );
    return this.pick(lots);
  }

  /** A bucket whose recipe they may see. */
  anyBucket(): KeptBucket | undefined {
    return this.pick([...this.world.ledger.buckets.values()]);
  }
}
