import type { WaitingRow } from "./waiting-rows.ts";

/** What waits, in a sentence without its moment. */
export function sayOf({ kind, name, number, detail, by }: WaitingRow): string {
  const revision = `revision ${number} of ${name}`;
  switch (kind) {
    case "objection":
      return `${by} objects to ${revision}. Answer it, or revise the recipe.`;
    case "objection-answered":
      return `${by} replied to your objection to ${revision}. Close it, or say what is still wrong.`;
    case "offer":
      return `${by} offers a change to ${name}. Take it, or turn it down with a reason.`;
    case "review":
      return `${by} asks for a review of ${revision}, ${detail === "functional" ? "for functional ware" : "as decorative only"}.`;
    case "another-look":
      return `${upper(revision)} needs another look: what it was approved for no longer holds.`;
    case "bucket":
      return `The bucket “${detail}” follows ${revision}, which is not approved. Do not use it for food until that is settled.`;
    case "bucket-on-hold":
      return `${by} put the bucket “${detail}” on hold. Look at it, then open or empty it.`;
    case "bucket-report":
      return `${by} reported the bucket “${name}”: ${detail}. Look at it, then say what was done.`;
    case "mention":
      return `${by} mentions you in a note on ${revision}.`;
    case "analysis":
      return `${by} posted an analysis of ${name} (${detail}). Put it in use, or leave it.`;
    case "recall-used":
      return `The bucket “${name}” that you used is recalled. Do not use what you glazed with it until a manager says what is to be done. ${detail}`;
    case "recall":
      return `${by} recalled ${name}. Tell whoever used it, see to it, and say what was done. ${detail}`;
    case "stock-low":
      return `${name} is low: ${detail}. Order it, or count what is there.`;
  }
}

/** Where one sees to it. */
export function hrefOf({ kind, slug, number, ref }: WaitingRow): string {
  switch (kind) {
    case "objection":
    case "objection-answered":
    case "mention":
      return `/recipes/${slug}/revisions/${number}#note-${ref}`;
    case "offer":
      return `/offers/${ref}`;
    case "review":
    case "another-look":
      return `/recipes/${slug}/revisions/${number}`;
    case "bucket":
    case "bucket-on-hold":
      return `/buckets/${ref}`;
    case "bucket-report":
      return `/bucket-reports/${ref}/answer`;
    case "analysis":
      return `/materials/${slug}/analysis-in-use?analysis=${ref}`;
    case "recall-used":
    case "recall":
      return `/recalls/${ref}`;
    case "stock-low":
      return `/stock#${slug}`;
  }
}

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
