import { Decimal } from "decimal.js";
import { Hono } from "hono";
import { z } from "zod";
import { TrialSheet } from "../../views/trials/sheet.tsx";
import { batchSheet } from "../chem/batch.ts";
import { workOut } from "../chem/chemistry.ts";
import { smallestBatch } from "../chem/smallest-batch.ts";
import { stocksFor } from "../chem/stocks.ts";
import { trialMark } from "../chem/tile-marks.ts";
import { weighingOrder } from "../chem/weighing-order.ts";
import { chemistryLines } from "../db/drafts.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { decimalText } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { type ReadTrial, readTrial } from "./trial-reading.ts";

export const trialSheets = new Hono<Env>();

const asked = z.object({
  grams: decimalText.optional(),
  scaleGrams: decimalText.optional(),
  error: decimalText
    .refine((percent) => percent.gte("0.1") && percent.lte(20), "Between 0.1 and 20 %.")
    .optional(),
});

trialSheets.get(
  "/:id/sheet",
  described({
    says: "A trial's sheet to weigh from, for so many grams of base a point",
    query: asked,
  }),
  memberRequired,
  async (c) => {
    const trial = await readTrial(c, c.req.param("id"));
    if (!trial) return notFound(c);
    const handling = handlingOf(trial);
    const where = { title: `To weigh: ${trial.name}`, here: "kiln" } as const;
    const query = c.req.query();
    const filled = Object.fromEntries(Object.entries(query).filter(([, value]) => value !== ""));
    const read = check(asked, filled);
    const studioScale = c.var.studio.scaleGrams;
    const typed = {
      grams: query.grams || "100",
      scaleGrams: query.scaleGrams || studioScale.toFixed(),
      error: query.error || "2",
    };
    const again = (faults: readonly Fault[]) => ({
      page: where,
      view: () => TrialSheet({ trial, typed, faults, handling, sheet: undefined }),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));
    const { grams = new Decimal(100), scaleGrams = studioScale, error } = read.value;
    const sheet = sheetOf(trial, { grams, scaleGrams, errorPercent: error ?? new Decimal(2) });
    if (sheet.kind === "refused") return faulty(c, sheet, again(sheet.faults));
    return answer(c, {
      json: () => ({ ...sheetJson(sheet), handling }),
      page: where,
      view: () => TrialSheet({ trial, typed, faults: [], handling, sheet }),
    });
  },
);

/** What the powders of all points ask for in the room, as if they were one recipe. */
function handlingOf({ points }: ReadTrial) {
  const lines = new Map(
    points.flatMap((point) =>
      chemistryLines(point.lines).map((line) => [`${line.part} ${line.key}`, line] as const),
    ),
  );
  return workOut({ lines: [...lines.values()] }).handling;
}

type Weighing = { grams: Decimal; scaleGrams: Decimal; errorPercent: Decimal };

function sheetOf(trial: ReadTrial, weighing: Weighing) {
  const points = trial.points.map(({ n, at, named }) => ({ n, at, lines: named }));
  const weighed = weighingOrder(points).map(({ n, at, lines }) => ({
    n,
    at,
    mark: trialMark(trial, n),
    smallestGrams: smallestBatch(lines, weighing) ?? weighing.grams,
    batch: batchSheet({ lines, ...weighing }),
  }));
  const rows = [];
  for (const { batch, ...point } of weighed) {
    if (batch.kind === "refused") return batch;
    rows.push({ ...point, batch });
  }
  return {
    kind: "sheet" as const,
    ...weighing,
    points: rows,
    smallestGrams: Decimal.max(...rows.map(({ smallestGrams }) => smallestGrams)),
    ...stocksFor(points, weighing),
  };
}

type Sheet = Extract<ReturnType<typeof sheetOf>, { kind: "sheet" }>;

const sheetJson = (sheet: Sheet) => ({
  grams: sheet.grams.toFixed(),
  scaleGrams: sheet.scaleGrams.toFixed(),
  errorPercent: sheet.errorPercent.toFixed(),
  smallestGrams: sheet.smallestGrams.toFixed(),
  points: sheet.points.map(({ n, mark, at, smallestGrams, batch }) => ({
    n,
    mark,
    at,
    lines: batch.lines.map(({ line, grams, runningGrams }) => ({
      material: line.name,
      part: line.part,
      grams: grams.toFixed(),
      runningGrams: runningGrams.toFixed(),
    })),
    totalGrams: batch.totalGrams.toFixed(),
    smallestGrams: smallestGrams.toFixed(),
  })),
  stocks: sheet.stocks.map(({ colourant, carrier, colourantGrams, carrierGrams, takes }) => ({
    colourant: colourant.name,
    carrier: carrier.name,
    colourantGrams: colourantGrams.toFixed(),
    carrierGrams: carrierGrams.toFixed(),
    takes: takes.map(({ n, grams, leaveOut }) => ({
      n,
      grams: grams.toDecimalPlaces(4).toFixed(),
      leaveOut: leaveOut.toDecimalPlaces(4).toFixed(),
    })),
  })),
  without: sheet.without.map(({ colourant, points }) => ({ colourant: colourant.name, points })),
});
