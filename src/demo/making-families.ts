import { addFamily } from "../db/family-keeping.ts";
import { type Entry, entry, known } from "./diary.ts";
import { ternFamily } from "./glazes-terns.ts";

/** The terns, written up by who made them once all four stood in the library. */
export const familyEntries = (): Entry[] => [
  entry("2026-07-13T10:00:00Z", async ({ db, ids, recipeIds }, at) => {
    const added = await addFamily(db, {
      name: "The terns",
      intro,
      recipeIds: ternFamily.map(({ name }) => known(recipeIds, name)),
      by: known(ids, "ines"),
      at,
    });
    if (added.kind !== "added") throw new Error("the terns are written up twice");
  }),
];

const intro = `Four glazes from six bins, so that a class can mix all of them in an evening: a clear, a satin, a white and a black.

Begin with Little Tern. Arctic Tern is the same base made white, so whoever has mixed one has weighed the other. Common Tern has more dolomite and less quartz and wants a slow cooling. Black Tern melts a little sooner: keep it two fingers from the foot.`;
