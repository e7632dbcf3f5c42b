import { v7 as uuidv7 } from "uuid";
import type { Db } from "../db/client.ts";
import { appendEvent, listEvents } from "../db/events.ts";
import { openStudio } from "../db/studios.ts";
import {
  drawn,
  type Entry,
  inStretches,
  liveThrough,
  type Making,
  type Prepared,
} from "./diary.ts";
import { buyingEntries } from "./making-buying.ts";
import { careEntries } from "./making-care.ts";
import { familyEntries } from "./making-families.ts";
import { kilnEntries } from "./making-kiln.ts";
import { libraryEntries } from "./making-library.ts";
import { lotEntries } from "./making-lots.ts";
import { mixEntries } from "./making-mixes.ts";
import { noteEntries } from "./making-notes.ts";
import { offerEntries } from "./making-offers.ts";
import { pairEntries } from "./making-pairs.ts";
import { peopleEntries } from "./making-people.ts";
import { proofEntries } from "./making-proofs.ts";
import { reviewEntries } from "./making-reviews.ts";
import { sheetEntries } from "./making-sheets.ts";
import { shelfEntries } from "./making-shelf.ts";
import { testEntries } from "./making-tests.ts";
import { tileEntries } from "./making-tiles.ts";
import { trialEntries } from "./making-trials.ts";
import { studioName } from "./studio-name.ts";

/** The first event of a demo's record, and of no other studio's. */
const mark = "made the demo";

/**
 * Makes the whole of the demo's studio in an empty database, or keeps the one that is there, changes
 * and all. One transaction: a start that is killed half-way leaves the database empty.
 *
 * @param prepared what is needed only where there is something to make.
 * @param beforeKept done when all is written and before it is kept.
 * @throws a sentence for the person at the terminal where another studio is in there.
 */
export function openDemoStudio(
  db: Db,
  prepared: () => Prepared,
  beforeKept: () => Promise<void>,
): Promise<"made" | "kept"> {
  const drawing = () => {
    const all = prepared();
    all.pictures();
    return all;
  };
  return db.transaction(async (tx) => {
    const follow = await beginDemoStudio(withoutSavepoints(tx), drawing, async () => {});
    if (!follow) return "kept";
    await follow();
    await beforeKept();
    return "made";
  });
}

/**
 * The same, but only as far as the first page needs it.
 *
 * @returns makes what follows, a stretch at a time in transactions of their own; undefined where a
 *   studio was kept.
 */
export async function beginDemoStudio(
  db: Db,
  prepared: () => Prepared,
  beforeKept: () => Promise<void>,
): Promise<(() => Promise<void>) | undefined> {
  const [first, ...following] = inStretches(everything());
  const begun = await db.transaction(async (tx) => {
    if (!(await isEmpty(tx))) return undefined;
    const making = await begin(withoutSavepoints(tx), prepared());
    await liveThrough(making, first);
    await beforeKept();
    return making;
  });
  return (
    begun &&
    (async () => {
      begun.prepared.pictures();
      for (const stretch of following) {
        await drawn(begun.prepared, stretch);
        await db.transaction((tx) => liveThrough({ ...begun, db: withoutSavepoints(tx) }, stretch));
      }
    })
  );
}

/** @throws where a studio is in there that is not the demo's. */
async function isEmpty(tx: Db): Promise<boolean> {
  // Of two who start at the same moment the second waits at this row until the first is done.
  const studio = await openStudio(tx, studioName);
  const [first] = await listEvents(tx, { limit: 1 });
  if (first?.kind === mark) return false;
  if (first || studio.name !== studioName) {
    throw new Error(
      "This database holds a studio that is not the demo's, and it was left as it is. The demo wants an empty database, or none: without DATABASE_URL it uses a folder of its own.",
    );
  }
  return true;
}

/**
 * The same transaction, in which those that the query functions begin are a part of it and no
 * savepoints of their own: here a failure anywhere is a failure of the whole.
 */
function withoutSavepoints(tx: Db): Db {
  const whole: Db = Object.create(tx, {
    transaction: { value: (change: (within: Db) => Promise<unknown>) => change(whole) },
  });
  return whole;
}

async function begin(db: Db, prepared: Prepared): Promise<Making> {
  const opened = new Date("2026-01-05T08:30:00Z");
  const subject = { kind: mark, subject: "studio", subjectId: uuidv7() } as const;
  await appendEvent(db, { by: null, at: opened }, subject);
  return {
    db,
    prepared,
    ids: new Map(),
    materialSlugs: new Map(),
    materialIds: new Map(),
    shelf: new Map(),
    recipeIds: new Map(),
    bodyIds: new Map(),
    kilnIds: new Map(),
    firingIds: new Map(),
    tileIds: new Map(),
    revisions: new Map(),
  };
}

const everything = (): Entry[] => [
  ...peopleEntries(),
  ...shelfEntries(),
  ...lotEntries(),
  ...kilnEntries(),
  ...libraryEntries(),
  ...offerEntries(),
  ...familyEntries(),
  ...noteEntries(),
  ...tileEntries(),
  ...pairEntries(),
  ...testEntries(),
  ...trialEntries(),
  ...reviewEntries(),
  ...mixEntries(),
  ...proofEntries(),
  ...careEntries(),
  ...buyingEntries(),
  ...sheetEntries(),
];
