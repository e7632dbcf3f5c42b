import { addPhoto } from "../db/pictures.ts";
import { addTile, withdrawTile } from "../db/tiles.ts";
import { type Entry, entry, firstPage, known } from "./diary.ts";
import { demoFirings, firingKey } from "./kiln.ts";
import { type DemoTile, demoTiles, tileKey } from "./tiles.ts";

/**
 * A tile is put on record the evening after it was fired, its picture a little later; of those that
 * stood there before anybody took pictures, all on one afternoon.
 */
export const tileEntries = (): Entry[] =>
  demoTiles.flatMap((tile, place) => {
    const { glaze, number, cone, clay, firedOn, remark, defects, place: stood, withdrawn } = tile;
    let id = "";
    const fired = Date.parse(`${firedOn}T18:00:00Z`) + day + place * minute;
    const add: Entry["happens"] = async (
      { db, ids, recipeIds, bodyIds, firingIds, tileIds },
      at,
    ) => {
      const added = await addTile(db, {
        recipeId: known(recipeIds, glaze),
        ...{ number, cone, clay, firedOn, remark, defects, place: stood, bisqueCone: "04" },
        body: { id: known(bodyIds, clay), name: clay },
        firing: firingOf(tile, firingIds),
        by: known(ids, tile.by),
        at,
      });
      if (added.kind !== "added") throw new Error(`${tileKey(tile)}: ${added.kind}`);
      id = added.id;
      tileIds.set(tileKey(tile), id);
    };
    const hang: Entry["happens"] = async ({ db, ids, prepared }, at) => {
      const picture = await known(prepared.pictures(), tile);
      await addPhoto(db, { tileId: id, picture, alt: altOf(tile), by: known(ids, tile.by), at });
    };
    const withdraw =
      (why: string): Entry["happens"] =>
      async ({ db, ids }, at) => {
        await withdrawTile(db, { tileId: id, why, by: known(ids, tile.by), at });
      };
    return [
      { at: new Date(fired), happens: add },
      ...(tile.look ? [{ at: pictured(fired, place), happens: hang, shows: [tile] }] : []),
      ...(withdrawn ? [entry(withdrawn.at, withdraw(withdrawn.why))] : []),
    ];
  });

/** The firing of that day for the tile's cone, else one whose cone of that number went down. */
function firingOf({ firedOn, cone }: DemoTile, firingIds: ReadonlyMap<string, string>) {
  const ofTheDay = demoFirings.filter(
    ({ kind, startedAt }) => kind !== "bisque" && startedAt.startsWith(firedOn),
  );
  const firing =
    ofTheDay.find((each) => each.cone === cone) ??
    ofTheDay.find(({ witness }) => witness.some((stood) => stood.cone === cone));
  if (!firing) return undefined;
  const { kiln, kind, startedAt } = firing;
  const id = known(firingIds, firingKey(kiln, firedOn));
  return { id, kind, startedAt: new Date(startedAt) };
}

const pictured = (fired: number, place: number): Date =>
  new Date(Math.max(fired + 15 * minute, firstPage.getTime() + 14 * hour + place * minute));

const minute = 60_000;
const hour = 60 * minute;
const day = 24 * hour;

const altOf = ({ glaze, clay, cone }: DemoTile): string =>
  `A tile of ${glaze} on ${clay}, cone ${cone}; drawn for the demo`;
