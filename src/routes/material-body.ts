import { z } from "zod";
import { hazards } from "../../views/parts/hazard-words.ts";
import type { Figure } from "../chem/analysis.ts";
import type { NewMaterial } from "../db/material-adding.ts";
import {
  type AnalysisFields,
  basis,
  figure,
  inlineAnalysis,
  keptAnalysis,
  measuredAnalysis,
  pastDay,
  refuseWith,
} from "../wire/analysis-body.ts";
import { idempotencyKey, line, text, ticked } from "../wire/fields.ts";

/** Hazards as a list, or the one that a form sends where a single box is ticked. */
const hazardList = z.preprocess(
  (typed) => (typeof typed === "string" ? [typed] : typed),
  z.array(z.enum(hazards)).max(hazards.length).default([]),
);

type Measured = {
  fields: Omit<AnalysisFields, "source"> & { source?: string | undefined };
  oxidesAt: "analysis" | "analysis.oxides";
};

/** Oxides under `oxides`, or directly, as a request to the chemistry has them. */
const analysis = z.record(z.string(), z.unknown()).transform((typed, context): Measured => {
  const listed = "oxides" in typed;
  const read = (listed ? measuredAnalysis : inlineAnalysis).safeParse(typed);
  if (read.success) return { fields: read.data, oxidesAt: listed ? "analysis.oxides" : "analysis" };
  for (const issue of read.error.issues) context.addIssue({ ...issue });
  return z.NEVER;
});

/** What may be said of a new material. */
export const materialFields = {
  name: line(80),
  region: line(60, 0).default(""),
  kind: line(40).default("powder"),
  about: text(4000, 0).default(""),
  hazards: hazardList,
  source: line(300).optional(),
  measuredOn: pastDay.optional(),
  formula: line(200).optional(),
  ideal: ticked.optional(),
  analysis: analysis.optional(),
  lossOnIgnition: figure.optional(),
  basis: basis.optional(),
};

const saidOfMaterial = z.object(materialFields);

/** The material with its analysis, if it has one that can be kept. */
export function materialOf(
  typed: z.output<typeof saidOfMaterial>,
  context: z.RefinementCtx,
): NewMaterial {
  const { name, region, kind, about } = typed;
  const material = { name, region, kind, about, hazards: [...new Set(typed.hazards)] };
  if (!isAnalysed(typed)) return { ...material, given: null };
  const within: Partial<Measured["fields"]> = typed.analysis?.fields ?? {};
  const kept = keptAnalysis({
    source: typed.source ?? within.source ?? sourceWhere(typed.formula),
    measuredOn: typed.measuredOn ?? within.measuredOn,
    formula: typed.formula,
    ideal: typed.ideal,
    oxides: within.oxides,
    basis: typed.basis ?? within.basis,
    lossOnIgnition: typed.lossOnIgnition ?? within.lossOnIgnition,
  });
  if (kept.kind === "given") return { ...material, given: kept.given };
  const faults = kept.faults.map(({ path, says }) => ({ path: placeOf(path, typed), says }));
  return refuseWith(context, faults);
}

/** POST of a material, with a formula, an analysis or neither. */
export const materialBody = z
  .strictObject({ ...materialFields, idempotencyKey })
  .transform(materialOf);

type Beside = {
  analysis?: Measured | undefined;
  lossOnIgnition?: Figure | undefined;
} & Partial<Record<"source" | "measuredOn" | "formula" | "ideal" | "basis", unknown>>;

/** Whether anything was said of what is in it; then it has to hold together. */
const isAnalysed = ({ source, measuredOn, formula, ideal, ...typed }: Beside): boolean =>
  [source, measuredOn, formula, ideal, typed.analysis, typed.lossOnIgnition, typed.basis].some(
    (each) => each !== undefined,
  );

const sourceWhere = (formula: string | undefined): string =>
  formula === undefined
    ? "Given with the material, no source named"
    : "Worked out from its formula";

/** Where the form or the JSON has what a fault of the analysis is about. */
function placeOf(path: string, { analysis: measured, lossOnIgnition }: Beside): string {
  if (path === "formula" || path === "ideal") return path;
  if (path.startsWith("lossOnIgnition")) return lossOnIgnition ? path : `analysis.${path}`;
  return path.replace(/^oxides/, measured?.oxidesAt ?? "analysis.oxides");
}
