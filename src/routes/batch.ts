import { Hono } from "hono";
import { BatchPage, type TypedBatch } from "../../views/computing/batch.tsx";
import { type BatchSheet, batchSheet } from "../chem/batch.ts";
import { type FilledBatch, filledBatch } from "../chem/batch-fill.ts";
import { answer } from "../wire/answers.tsx";
import { type BatchBody, batchBody } from "../wire/batch-body.ts";
import { readBody, type Typed } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { readSource } from "./lines-source.ts";
import type { SentLine } from "./sent-lines.ts";

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
    const batch = batchOf(source.lines, read.value);
    if (batch.kind === "refused") return faulty(c, batch, again(batch.faults));
    return answer(c, {
      json: () => batchJson(batch),
      page: here,
      view: () => BatchPage({ typed: typedOf(read.typed), faults: [], batch }),
    });
  },
);

type Weighed = Extract<BatchSheet<SentLine>, { kind: "sheet" }> & {
  filled?: Extract<FilledBatch, { kind: "filled" }> | undefined;
};

function batchOf(
  lines: readonly SentLine[],
  { grams, fill, drySpecificGravity, scaleGrams }: BatchBody,
): Weighed | { kind: "refused"; faults: Fault[] } {
  if (grams) return batchSheet({ lines, grams, scaleGrams });
  // A scale or an amount that no batch can be weighed with is told before what it would fill.
  const possible = batchSheet({ lines, grams: scaleGrams, scaleGrams });
  if (possible.kind === "refused") {
    return { ...possible, faults: possible.faults.filter(({ path }) => path !== "grams") };
  }
  const filled = fill && filledBatch({ lines, fill: { drySpecificGravity, ...fill }, scaleGrams });
  if (!filled) throw new Error("a batch has grams or a fill");
  if (filled.kind === "refused") return filled;
  const sheet = batchSheet({ lines, grams: filled.grams, scaleGrams });
  if (sheet.kind === "sheet") return { ...sheet, filled };
  const says = "A batch weighs at most 1000000 g of base. Fill less.";
  return { kind: "refused", faults: [{ path: "fill.litres", says }] };
}

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
