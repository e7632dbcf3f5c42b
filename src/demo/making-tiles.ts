import { addPhoto } from "../db/pictures.ts";
import { addTile, withdrawTile } from "../db/tiles.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoTile, demoTiles } from "./tiles.ts";

/** A tile is put on record the evening after it was fired, its picture a little later. */
export const tileEntries = (): Entry[] =>
  demoTiles.flatMap((tile, place) => {
    const { glaze, number, cone, clay, firedOn, remark, withdrawn } = tile;
    let id = "";
    const fired = Date.parse(`${firedOn}T18:00:00Z`) + day + place * minute;
    const add: Entry["happens"] = async ({ db, ids, recipeIds }, at) => {
      const recipeId = known(recipeIds, glaze);
      const act = { by: known(ids, tile.by), at };
      const added = await addTile(db, { recipeId, number, cone, clay, firedOn, remark, ...act });
      if (added.kind !== "added") throw new Error(`${glaze} ${number} is not published yet`);
      id = added.id;
    };
    const hang: Entry["happens"] = async ({ db, ids, prepared }, at) => {
      const picture = await known(prepared.pictures, tile);
      if (!picture) return;
      await addPhoto(db, { tileId: id, picture, alt: altOf(tile), by: known(ids, tile.by), at });
    };
    const withdraw =
      (why: string): Entry["happens"] =>
      async ({ db, ids }, at) => {
        await withdrawTile(db, { tileId: id, why, by: known(ids, tile.by), at });
      };
    return [
      { at: new Date(fired), happens: add },
      ...(tile.look ? [{ at: new Date(fired + 15 * minute), happens: hang }] : []),
      ...(withdrawn ? [entry(withdrawn.at, withdraw(withdrawn.why))] : []),
    ];
  });

const minute = 60_000;
const day = 24 * 60 * minute;

const altOf = ({ glaze, clay, cone }: DemoTile): string =>
  `A tile of ${glaze} on ${clay}, cone ${cone}; drawn for the demo`;
