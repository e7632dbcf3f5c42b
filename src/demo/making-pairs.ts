import { reviewPair } from "../db/pair-reviews.ts";
import { addPair, findPair } from "../db/pairs.ts";
import { addTile } from "../db/tiles.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";
import { demoFirings, firingKey } from "./kiln.ts";
import { revisionOf } from "./making-library.ts";
import { type DemoPair, demoPairs } from "./pairs.ts";

/** Layered pairs: put on record, fired together, then looked at by a reviewer. */
export const pairEntries = (): Entry[] =>
  demoPairs.flatMap((pair) => {
    let id = "";
    return [
      entry(pair.at, async (making, at) => {
        id = await put(making, pair, at);
      }),
      entry(pair.tile.at, (making, at) => fire(making, pair, at)),
      entry(pair.review.at, (making, at) => review(making, pair, id, at)),
    ];
  });

async function put(making: Making, { over, under, about, by }: DemoPair, at: Date) {
  const [top, beneath] = [
    await revisionOf(making, over.glaze, over.number),
    await revisionOf(making, under.glaze, under.number),
  ];
  const laid = { overId: top.id, underId: beneath.id, about };
  const added = await addPair(making.db, { ...laid, by: known(making.ids, by), at });
  if (added.kind !== "added") throw new Error(`${over.glaze} over ${under.glaze}: ${added.kind}`);
  return added.id;
}

async function fire(making: Making, { over, under, tile }: DemoPair, at: Date): Promise<void> {
  const beneath = await revisionOf(making, under.glaze, under.number);
  const { cone, clay, place, remark } = tile;
  const added = await addTile(making.db, {
    recipeId: known(making.recipeIds, over.glaze),
    number: over.number,
    ...{ cone, clay, place, remark, firedOn: null, bisqueCone: "04" as const },
    body: { id: known(making.bodyIds, clay), name: clay },
    firing: firingOf(making, tile.firing),
    overId: beneath.id,
    by: known(making.ids, tile.by),
    at,
  });
  if (added.kind !== "added") throw new Error(`the tile of ${over.glaze}: ${added.kind}`);
}

function firingOf({ firingIds }: Making, named: string) {
  const firing = demoFirings.find(
    ({ kiln, startedAt }) => `${kiln} ${startedAt.slice(0, 10)}` === named,
  );
  if (!firing) throw new Error(`there was no firing ${named}`);
  const { kiln, kind, startedAt } = firing;
  const id = known(firingIds, firingKey(kiln, startedAt.slice(0, 10)));
  return { id, kind, startedAt: new Date(startedAt) };
}

async function review(
  { db, ids }: Making,
  { review: { by, for: use, reasons } }: DemoPair,
  id: string,
  at: Date,
): Promise<void> {
  const reviewer = known(ids, by);
  const pair = await findPair(db, { id, reader: { id: reviewer, role: "reviewer" }, now: at });
  if (!pair) throw new Error("the pair was put on record before it was reviewed");
  const judged = { pair, verdict: "approve", for: use, reasons } as const;
  const given = await reviewPair(db, { ...judged, by: reviewer, at });
  if (given.kind !== "given") throw new Error(`the pair's review: ${JSON.stringify(given)}`);
}
