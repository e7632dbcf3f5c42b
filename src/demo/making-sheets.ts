import { addBucketUse } from "../db/bucket-uses.ts";
import { addDataSheet } from "../db/data-sheets.ts";
import { type Entry, entry, known } from "./diary.ts";
import { bucketOf } from "./making-care.ts";
import { demoSheets, demoUses } from "./sheets.ts";

/** What was put down of two data sheets, and who used the buckets. */
export const sheetEntries = (): Entry[] => [
  entry("2026-07-17T16:30:00Z", async ({ db, ids, materialIds }, at) => {
    const act = { by: known(ids, "ines"), at };
    for (const { powder, sheet } of demoSheets)
      await addDataSheet(db, { materialId: known(materialIds, powder), ...sheet, ...act });
  }),
  ...demoUses.map(({ bucket: name, at: when, by, what }) =>
    entry(when, async (making, at) => {
      const bucketId = await bucketOf(making, name, at);
      await addBucketUse(making.db, { bucketId, what, by: known(making.ids, by), at });
    }),
  ),
];
