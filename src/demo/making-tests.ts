import { Decimal } from "decimal.js";
import { addTest } from "../db/test-adding.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoResult, type DemoTest, demoTests } from "./tests.ts";
import { tileKey } from "./tiles.ts";

/** What was done to tiles, each test on record as soon as it was read. */
export const testEntries = (): Entry[] => demoTests.map((test) => entry(test.at, put(test)));

const put =
  (given: DemoTest): Entry["happens"] =>
  async ({ db, ids, recipeIds, tileIds }, at) => {
    const { glaze, number, cone: _, clay: __, at: ___, by, results, ...said } = given;
    const added = await addTest(db, {
      recipeId: known(recipeIds, glaze),
      number,
      test: { ...said, tileId: known(tileIds, tileKey(given)), results: results.map(figure) },
      by: known(ids, by),
      at,
    });
    if (added.kind !== "added") throw new Error(`${tileKey(given)}, ${said.kind}: ${added.kind}`);
  };

const figure = ({ value, detectionLimit, ...said }: DemoResult) => ({
  ...said,
  value: new Decimal(value),
  detectionLimit: new Decimal(detectionLimit),
});
