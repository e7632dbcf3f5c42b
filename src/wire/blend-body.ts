import { Decimal } from "decimal.js";
import { z } from "zod";
import { mostPoints } from "../chem/blends.ts";
import { measures } from "../db/trials.ts";
import { conventionFields, sentMaterial } from "./chemistry-body.ts";
import { decimalText, idempotencyKey, line, text, whole } from "./fields.ts";
import { linesSource } from "./lines-source.ts";
import { cone } from "./recipe-body.ts";

const intervals = whole(1, mostPoints - 1);

/** A grid's intervals across and down, `[4, 3]`; a form has one box for them: `4 x 3`. */
const bothWays = z.preprocess(
  (sent) => {
    if (typeof sent === "number") return [sent, sent];
    if (typeof sent !== "string") return sent;
    const [across, down = across] = sent.split(/[x×,]/).map((part) => part.trim());
    return [across, down];
  },
  z.tuple([intervals, intervals], {
    error: "Two numbers of steps, those across and those down, as in 4 x 3.",
  }),
);

const cornersOf = (count: number, words: string) =>
  z.preprocess(
    (sent) => (isForm(sent) ? Array.from({ length: count }, (_, at) => sent[at] ?? {}) : sent),
    z.array(linesSource, { error: words }).length(count, { error: words }),
  );

/** A form leaves out the boxes that nothing was typed in; each has its own place to say so. */
const isForm = (sent: unknown): sent is unknown[] =>
  Array.isArray(sent) &&
  sent.some((corner) => corner && typeof corner === "object" && "text" in corner);

/** What is taken of a computing call and of a trial alike. */
const fields = {
  measure: z.enum(measures).default("dry weight"),
  /** The specific gravity of each corner's slurry, where shares are of volume. */
  gravities: z
    .array(z.union([decimalText, z.object({})]))
    .max(4)
    .optional(),
  cone: cone.optional(),
  use: z.enum(["functional", "decorative"]).optional(),
  ...conventionFields,
  name: line(80).optional(),
  about: text(4000, 0).default(""),
  idempotencyKey,
};

/** POST /blends, of which nothing is stored, and POST /trials, which is the same with a name. */
export const blendBody = z.discriminatedUnion(
  "kind",
  [
    z.object({
      kind: z.literal("ladder"),
      base: linesSource,
      addition: sentMaterial,
      from: decimalText.default(() => new Decimal(0)),
      to: decimalText,
      steps: intervals,
      spacing: z.enum(["even", "geometric"]).default("even"),
      ...fields,
    }),
    z.object({
      kind: z.literal("line"),
      corners: cornersOf(2, "A line has two corners."),
      steps: intervals,
      ...fields,
    }),
    z.object({
      kind: z.literal("triaxial"),
      corners: cornersOf(3, "A triaxial has three corners."),
      steps: intervals,
      ...fields,
    }),
    z.object({
      kind: z.literal("grid"),
      corners: cornersOf(4, "A grid has four corners."),
      steps: bothWays,
      ...fields,
    }),
  ],
  { error: "One of: ladder, line, triaxial, grid." },
);

export type BlendBody = z.output<typeof blendBody>;
