import { z } from "zod";
import { idempotencyKey, line, text, whole } from "./fields.ts";

/** Why recipes are restated: a powder is not to be had any more, or comes with another analysis. */
export const replacementReasons = ["ends", "lot"] as const;

/** How many recipes are looked at on one page, and how many are published in one go at most. */
export const replacedPerPage = 20;
export const mostReplaced = 200;

/** A form sends one ticked box as a text, several as a list, and none not at all. */
const several = <Each extends z.ZodType>(each: Each, most: number) =>
  z.preprocess(
    (sent) => (sent === undefined ? [] : Array.isArray(sent) ? sent : [sent]),
    z.array(each).max(most),
  );

const choices = {
  reason: z.enum(replacementReasons).default("ends"),
  /** Slugs of what may stand in; where none is named, what is usual for the reason. */
  with: several(line(80), 200),
  /** Of the material itself; the one in use where nothing is said. */
  analysis: z.uuid({ error: "The id of an analysis of this material." }).optional(),
  /** How many powders a recipe may get that it does not have. */
  most: whole(0, 200).default(2),
  after: line(160).optional(),
};

export const replacementQuery = z.object(choices);

export type AskedReplacement = z.output<typeof replacementQuery>;

/** One recipe of those to be published; a form's box says it as slack-water@2. */
const chosen = z.preprocess(
  (sent) => {
    if (typeof sent !== "string") return sent;
    const [slug, basedOn] = sent.split("@");
    return { slug, basedOn };
  },
  z.strictObject({ slug: line(80), basedOn: whole(1, 1_000_000) }),
);

export const replacementBody = z.strictObject({
  ...choices,
  recipes: several(chosen, mostReplaced),
  /** Beside what each message says by itself. */
  message: text(300, 0).default(""),
  idempotencyKey,
});

export type ReplacementBody = z.output<typeof replacementBody>;
