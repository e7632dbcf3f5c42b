import type { Db } from "../db/client.ts";
import type { MaterialOnShelf } from "../db/materials.ts";
import type { NewPicture } from "../db/pictures.ts";
import type { FoundRevision } from "../db/revisions.ts";
import type { Who } from "./people.ts";
import type { DemoTile } from "./tiles.ts";

/** What takes long and needs no database, so that it is made while the database opens. */
export type Prepared = {
  /** Password hashes; six people, six salts. */
  hashes: Promise<Readonly<Record<Who, string>>>;
  /** Each by itself, so that the first hang while the last are drawn; none where nobody took one. */
  pictures: ReadonlyMap<DemoTile, Promise<NewPicture | undefined>>;
};

/** The studio while it is made: the transaction, and what of it is known so far. */
export type Making = {
  db: Db;
  prepared: Prepared;
  ids: Map<Who, string>;
  materialSlugs: Map<string, string>;
  materialIds: Map<string, string>;
  shelf: Map<string, MaterialOnShelf>;
  recipeIds: Map<string, string>;
  bodyIds: Map<string, string>;
  kilnIds: Map<string, string>;
  /** By kiln and day, as `firingKey` says them. */
  firingIds: Map<string, string>;
  /** As `tileKey` says them. */
  tileIds: Map<string, string>;
  revisions: Map<string, FoundRevision>;
};

/** One thing that happened in the studio, and when. */
export type Entry = { at: Date; happens: (making: Making, at: Date) => Promise<void> };

export const entry = (at: string, happens: Entry["happens"]): Entry => ({
  at: new Date(at),
  happens,
});

/** Lets everything happen in the order of time; entries of one moment in the order given. */
export async function liveThrough(making: Making, entries: readonly Entry[]): Promise<void> {
  const inOrder = [...entries].sort((a, b) => a.at.getTime() - b.at.getTime());
  for (const { at, happens } of inOrder) await happens(making, at);
}

/** What the data calls by a name has to be there by then: anything else is a slip in the data. */
export function known<Key, Value>(map: ReadonlyMap<Key, Value>, key: Key): Value {
  const value = map.get(key);
  if (value === undefined) throw new Error(`the demo's data speaks of ${key} before it is there`);
  return value;
}
