import type { Db } from "../db/client.ts";
import type { MaterialOnShelf } from "../db/materials.ts";
import type { NewPicture } from "../db/pictures.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { settleSome } from "../db/standings.ts";
import type { Who } from "./people.ts";
import type { DemoTile } from "./tiles.ts";
import type { DemoTrialResult } from "./trials.ts";

/** What has a picture where somebody took one. */
export type Pictured = DemoTile | DemoTrialResult;

/** What takes long and needs no database. */
export type Prepared = {
  /** Password hashes; six people, six salts. Made while the database opens. */
  hashes: Promise<Readonly<Record<Who, string>>>;
  /**
   * Each by itself, so that the first hang while the last are drawn; none where nobody took one.
   * They begin to be drawn when this is called first.
   */
  pictures: () => ReadonlyMap<Pictured, Promise<NewPicture>>;
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
export type Entry = {
  at: Date;
  happens: (making: Making, at: Date) => Promise<void>;
  /** What has to be drawn by then. */
  shows?: readonly Pictured[] | undefined;
};

/**
 * What happened before this moment is there before the first page; the rest follows while people look
 * around. By then the library has nine glazes, some in their second revision, and nobody has taken a
 * picture. The later it is, the longer everybody waits for the first page.
 */
export const firstPage = new Date("2026-04-01T00:00:00Z");

/** How many entries of what follows are written at once: pages are let in between. */
const atOnce = 10;

export const entry = (at: string, happens: Entry["happens"]): Entry => ({
  at: new Date(at),
  happens,
});

/**
 * Everything in the order of time, entries of one moment in the order given: in one stretch what the
 * first page shows, and in short ones what follows.
 */
export function inStretches(entries: readonly Entry[]): [first: Entry[], ...following: Entry[][]] {
  const inOrder = [...entries].sort((a, b) => a.at.getTime() - b.at.getTime());
  const first = inOrder.filter(({ at }) => at < firstPage);
  const following: Entry[][] = [];
  for (let from = first.length; from < inOrder.length; from += atOnce)
    following.push(inOrder.slice(from, from + atOnce));
  return [first, ...following];
}

/**
 * Lets a stretch of it happen, with what revisions count as settled at its end: what a page shows in
 * between is never in doubt.
 */
export async function liveThrough(making: Making, entries: readonly Entry[]): Promise<void> {
  for (const { at, happens } of entries) await happens(making, at);
  const now = entries.at(-1)?.at;
  while (now && (await settleSome(making.db, { limit: 500, now })) > 0);
}

/** Waits until all is drawn that a stretch hangs up. */
export async function drawn({ pictures }: Prepared, entries: readonly Entry[]): Promise<void> {
  const shown = entries.flatMap(({ shows = [] }) => shows);
  if (shown.length > 0) await Promise.all(shown.map((one) => known(pictures(), one)));
}

/** What the data calls by a name has to be there by then: anything else is a slip in the data. */
export function known<Key, Value>(map: ReadonlyMap<Key, Value>, key: Key): Value {
  const value = map.get(key);
  if (value === undefined) throw new Error(`the demo's data speaks of ${key} before it is there`);
  return value;
}
