import { Hono } from "hono";
import { BatchPage, type TypedBatch } from "../../views/computing/batch.tsx";
import { type WeighedBatch, weighedBatch } from "../chem/weighed-batch.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import { answer } from "../wire/answers.tsx";
import { batchBody } from "../wire/batch-body.ts";
import { readBody, type Typed } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { readSource } from "./lines-source.ts";
import { type SentLine, shelvedId } from "./sent-lines.ts";

export const batches = new Hono<Env>();

const here = { title: "What to weigh", here: "work-it-out" } as const;

batches.get(
  "/",
  described({ says: "The rule that a batch is rounded by, and a page" }),
  readerRequired,
  (c) =>
    answer(c, {
      json: () => ({ says: rule }),
      page: here,
      view: () =>
        BatchPage({
          typed: { ...typedOf({}), scaleGrams: c.var.studio.scaleGrams.toFixed() },
          faults: [],
          batch: undefined,
        }),
    }),
);

const rule =
  "Base lines are rounded to the scale by largest remainder, so that they add up to the base; additions go to the nearest step, half up.";

batches.post(
  "/",
  described({
    says: "What to weigh for a base of so many grams, or to fill a bucket with slurry",
    body: batchBody,
  }),
  readerRequired,
  async (c) => {
    const read = await readBody(c, batchBody);
    const again = (faults: readonly Fault[]) => ({
      page: here,
      view: () => BatchPage({ typed: typedOf(read.typed), faults, batch: undefined }),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));
    const { lines, recipe, revision, text } = read.value;
    const source = await readSource(c, { lines, recipe, revision, text });
    if (source.kind === "faulty") return faulty(c, source, again(source.faults));
    const { grams, fill, drySpecificGravity, scaleGrams } = read.value;
    const weighed = fill ? await withDryGravities(c.var.db, source.lines, shelvedId) : source.lines;
    const batch = weighedBatch(weighed, {
      grams,
      fill: fill && { drySpecificGravity, ...fill },
      scaleGrams,
    });
    if (batch.kind === "refused") return faulty(c, batch, again(batch.faults));
    return answer(c, {
      json: () => batchJson(batch),
      page: here,
      view: () => BatchPage({ typed: typedOf(read.typed), faults: [], batch }),
    });
  },
);

type Weighed = Extract<WeighedBatch<SentLine>, { kind: "sheet" }>;

const batchJson = ({ lines, baseGrams, totalGrams, scaleGrams, coarse, filled }: Weighed) => ({
  lines: lines.map(({ line, grams, runningGrams }) => ({
    material: line.material,
    part: line.part,
    grams: grams.toFixed(),
    runningGrams: runningGrams.toFixed(),
  })),
  baseGrams: baseGrams.toFixed(),
  totalGrams: totalGrams.toFixed(),
  scaleGrams: scaleGrams.toFixed(),
  ...(coarse.length > 0 && {
    coarse: coarse.map(({ line, percent, smallestGrams }) => ({
      line,
      percent: percent.toNumber(),
      smallestGrams: smallestGrams.toFixed(),
    })),
  }),
  ...(filled && {
    waterGrams: filled.waterGrams.toFixed(),
    drySpecificGravity: filled.drySpecificGravity.toFixed(),
    says: filled.says,
  }),
});

const typedOf = (typed: Typed): TypedBatch => ({
  text: typedText(typed, "text"),
  grams: typedText(typed, "grams"),
  litres: typedText(typed, "fill.litres"),
  specificGravity: typedText(typed, "fill.specificGravity"),
  scaleGrams: typedText(typed, "scaleGrams"),
});
