import { lotName } from "../stock/words.ts";

export type RecalledThing =
  | {
      kind: "lot";
      id: string;
      material: { slug: string; name: string };
      supplier: string;
      mark: string;
      boughtAt: Date;
    }
  | { kind: "bucket"; id: string; name: string };

/** What is recalled, by name. */
export const whatWords = (of: RecalledThing): string =>
  of.kind === "lot" ? `${of.material.name}, lot ${lotName(of)}` : `The bucket “${of.name}”`;

export const hrefOf = (of: RecalledThing): string =>
  of.kind === "lot" ? `/lots/${of.id}` : `/buckets/${of.id}`;

/** That a recall is of what is in the room and not of what was written. */
export const untouchedWords = (of: RecalledThing): string =>
  `It is the ${of.kind} that is recalled, not a recipe: no approval changes by it. A recipe whose glaze itself is in doubt is withdrawn for safety on its own page.`;

export const didWords = {
  mixed: "mixed it",
  used: "used it",
  tile: "put a tile on record",
} as const;
