import { Decimal } from "decimal.js";
import { addBucket } from "../db/bucket-keeping.ts";
import { askForReview } from "../db/review-requests.ts";
import { giveReview } from "../db/reviews.ts";
import { findStudio, setStudio } from "../db/studios.ts";
import { type Entry, entry, known } from "./diary.ts";
import { revisionOf } from "./making-library.ts";
import { demoBuckets, demoRequests, demoReviews } from "./reviews.ts";

/** What was asked for, judged and put into buckets. */
export const reviewEntries = (): Entry[] => [
  entry("2026-01-06T09:00:00Z", async ({ db, ids }, at) => {
    const studio = await findStudio(db);
    const set = { approvalMonths: 24, jurisdictions: ["eu"] };
    await setStudio(db, { ...studio, ...set, by: known(ids, "ines"), at });
  }),
  ...demoRequests.map(({ glaze, number, at: when, by, for: use }) =>
    entry(when, async (making, at) => {
      const { id, digest } = await revisionOf(making, glaze, number);
      await askForReview(making.db, {
        recipeId: known(making.recipeIds, glaze),
        revision: { id, number, digest },
        for: use,
        by: known(making.ids, by),
        at,
      });
    }),
  ),
  ...demoReviews.map(({ glaze, number, at: when, by, ...said }) =>
    entry(when, async (making, at) => {
      const recipe = { id: known(making.recipeIds, glaze), withdrawn: null };
      const revision = await revisionOf(making, glaze, number);
      const act = { by: known(making.ids, by), at };
      const given = await giveReview(making.db, { recipe, revision, ...said, ...act });
      if (given.kind !== "given") throw new Error(`${glaze} ${number}: ${JSON.stringify(given)}`);
    }),
  ),
  ...demoBuckets.map(({ glaze, number, at: when, by, litres, ...bucket }) =>
    entry(when, async (making, at) => {
      const recipeId = known(making.recipeIds, glaze);
      const act = { by: known(making.ids, by), at };
      const filled = { recipeId, number, ...bucket, litres: new Decimal(litres) };
      const added = await addBucket(making.db, { ...filled, ...act });
      if (added.kind !== "added") throw new Error(`${bucket.name}: ${JSON.stringify(added)}`);
    }),
  ),
];
