import { makeOffer } from "../db/offering.ts";
import { findRecipe } from "../db/recipes.ts";
import { type Entry, entry, known } from "./diary.ts";

/** Sefton offers his satin back to Jonah, who has not answered: there is one to look at. */
export const offerEntries = (): Entry[] => [
  entry("2026-05-06T16:10:00Z", async ({ db, ids }, at) => {
    const by = known(ids, "sefton");
    const reader = { id: by, role: "member" } as const;
    const recipe = await findRecipe(db, { slug: "ebb-green", reader });
    if (!recipe) throw new Error("Ebb Green is not published yet");
    const from = { slug: "neap-green", number: 1 };
    const made = await makeOffer(db, { recipe, from, reader, why, by, at });
    if (made.kind !== "offered") throw new Error(`the offer to Ebb Green is ${made.kind}`);
  }),
];

const why =
  "The dolomite takes the glare off it and hides where it runs thin on a buff body. Have it if you like it; I keep mine either way.";
