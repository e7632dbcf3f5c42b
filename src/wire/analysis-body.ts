import { z } from "zod";
import {
  type Analysis,
  type Basis,
  type Fault,
  type Figure,
  faultsOfAnalysis,
} from "../chem/analysis.ts";
import { isOxide, type Oxide, oxides } from "../chem/oxides.ts";
import { analysisOfFormula } from "../chem/worked-out.ts";
import type { GivenAnalysis } from "../db/analyses.ts";
import { day, decimalText, idempotencyKey, line, ticked } from "./fields.ts";

/** A percentage with its ±, each a number or a decimal string. */
export const figure = z.strictObject({ percent: decimalText, plusMinus: decimalText.optional() });

const eachOxide = Object.fromEntries(
  oxides.map((oxide) => [oxide, figure.optional()]),
) as unknown as Record<Oxide, z.ZodOptional<typeof figure>>;

const noOxide = z.custom<undefined>(() => false, {
  error:
    "No oxide is written like this here. Each element has one: iron Fe2O3, manganese MnO, cobalt CoO, copper CuO, and so on.",
});

/** What the percents are of. */
export const basis = z.enum(["asReceived", "calcined"]);

/** Percents by oxide. A fault stands at the oxide that it is about: `oxides.Xx2O`. */
const listedOxides = z.object(eachOxide).catchall(noOxide);

/** A day that somebody measured or said something on. */
export const pastDay = day.refine((date) => date >= "1700-01-01", {
  error: "A date such as 2026-03-01.",
});

const fields = {
  measuredOn: pastDay.optional(),
  basis: basis.optional(),
  oxides: listedOxides.optional(),
  lossOnIgnition: figure.optional(),
  formula: line(200).optional(),
  ideal: ticked.optional(),
};

/** What was measured of a powder, where it comes with the powder itself. */
export const measuredAnalysis = z.strictObject({
  source: line(300).optional(),
  measuredOn: fields.measuredOn,
  basis: fields.basis,
  oxides: fields.oxides,
  lossOnIgnition: fields.lossOnIgnition,
});

/** An analysis of a material that a file brings, with its source or without. */
export const analysisInFile = z
  .strictObject({ source: line(300).optional(), ...fields })
  .transform(({ source, ...typed }, context) => {
    const kept = keptAnalysis({ source: source ?? "From a file that names no source", ...typed });
    if (kept.kind === "given") return kept.given;
    return refuseWith(context, kept.faults);
  });

/** What somebody may give of an analysis, before it is known whether it can be kept. */
export type AnalysisFields = {
  source: string;
  measuredOn?: string | undefined;
  basis?: Basis | undefined;
  oxides?: Readonly<Record<string, Figure | undefined>> | undefined;
  lossOnIgnition?: Figure | undefined;
  formula?: string | undefined;
  ideal?: boolean | undefined;
};

/** POST of an analysis: oxides in percent, or a formula that they are worked out from. */
export const analysisBody = z
  .strictObject({ source: line(300), ...fields, inUse: ticked.optional(), idempotencyKey })
  .transform(({ inUse, ...typed }, context) => {
    const kept = keptAnalysis(typed);
    if (kept.kind === "given") return { given: kept.given, inUse };
    return refuseWith(context, kept.faults);
  });

/**
 * An analysis as a request carries it with a material: the oxides stand directly in it.
 * Whether it can be worked with is for `faultsOfAnalysis` to say.
 */
export const inlineAnalysis = z
  .object({ ...eachOxide, lossOnIgnition: figure.optional(), basis: basis.optional() })
  .catchall(noOxide)
  .transform(({ lossOnIgnition, basis: of = "asReceived", ...figures }) =>
    analysisOf({ basis: of, oxides: figures, lossOnIgnition }),
  );

const inlineFields = z.strictObject({
  name: line(80),
  formula: line(200).optional(),
  ideal: ticked.optional(),
  analysis: inlineAnalysis.optional(),
  lossOnIgnition: figure.optional(),
  basis: basis.optional(),
});

/**
 * A material that a request carries with it: `analysis` from its oxides or worked out from its
 * formula, and null where it has neither, as a stain has. A loss stands beside the oxides or among
 * them. Faults keep their places where this is one of several possibilities.
 */
export const inlineMaterial = z
  .record(z.string(), z.unknown())
  .transform((typed, context): { name: string; analysis: Analysis | null } => {
    const read = inlineFields.safeParse(typed);
    if (!read.success) {
      for (const issue of read.error.issues) context.addIssue({ ...issue, continue: true });
      return z.NEVER;
    }
    const { name, formula, ideal, analysis, ...beside } = read.data;
    if (formula !== undefined) {
      if (analysis) return refuseWith(context, [either]);
      const workedOut = workOutFormula(formula, ideal);
      return "fault" in workedOut ? refuseWith(context, [workedOut.fault]) : { name, ...workedOut };
    }
    if (!analysis) return { name, analysis: null };
    if (analysis.lossOnIgnition && beside.lossOnIgnition) return refuseWith(context, [lossTwice]);
    const { lossOnIgnition = analysis.lossOnIgnition, basis: of = analysis.basis } = beside;
    return {
      name,
      analysis: { ...analysis, basis: of, ...(lossOnIgnition && { lossOnIgnition }) },
    };
  });

const either: Fault = { path: "formula", says: "Give a formula or oxides, not both." };
const lossTwice: Fault = { path: "lossOnIgnition", says: "The loss on ignition is given twice." };

/** Says what is wrong and where; what comes of the value then is of no account. */
export function refuseWith(context: z.RefinementCtx, faults: readonly Fault[]): never {
  for (const { path, says: message } of faults) {
    const at = path === "" ? [] : path.split(".");
    context.addIssue({ code: "custom", message, path: at, continue: true });
  }
  return z.NEVER;
}

/**
 * An analysis that the shelf can keep, or what is wrong with it: paths such as
 * `oxides.SiO2.percent`, `lossOnIgnition`, `formula`.
 */
export function keptAnalysis(
  typed: AnalysisFields,
): { kind: "given"; given: GivenAnalysis } | { kind: "faults"; faults: Fault[] } {
  const { source, measuredOn = null, formula = null, ideal } = typed;
  const listed = Object.keys(typed.oxides ?? {}).length > 0;
  if (formula !== null) {
    if (listed) return { kind: "faults", faults: [either] };
    if (typed.lossOnIgnition) return { kind: "faults", faults: [lossOfFormula] };
    const workedOut = workOutFormula(formula, ideal);
    if ("fault" in workedOut) return { kind: "faults", faults: [workedOut.fault] };
    const { analysis } = workedOut;
    if (takesUpTooMuch(analysis)) return { kind: "faults", faults: [tooMuch("formula")] };
    return { kind: "given", given: { source, measuredOn, formula, analysis } };
  }
  if (!listed) return { kind: "faults", faults: [nothing] };
  if (ideal) return { kind: "faults", faults: [idealOxides] };
  const analysis = analysisOf({ ...typed, basis: typed.basis ?? "asReceived" });
  const faults = [...faultsOfAnalysis(analysis).map(amongOxides), ...faultsOfKeeping(analysis)];
  if (faults.length > 0) return { kind: "faults", faults };
  return { kind: "given", given: { source, measuredOn, formula, analysis } };
}

const nothing: Fault = { path: "oxides", says: "Give at least one oxide, or a formula." };
const lossOfFormula: Fault = {
  path: "lossOnIgnition",
  says: "A formula's loss on ignition is worked out: leave it empty.",
};
const idealOxides: Fault = {
  path: "ideal",
  says: "Only a formula can be exact. Give measured oxides their own ±.",
};
const tooMuch = (path: string): Fault => ({
  path,
  says: "The powder would take up more than half its weight: a loss is not below −50 %.",
});

type Typed = Pick<AnalysisFields, "oxides" | "lossOnIgnition"> & { basis: Basis };

function analysisOf({ basis: of, oxides: typed = {}, lossOnIgnition }: Typed): Analysis {
  const figures = Object.entries(typed).filter(([oxide, given]) => given && isOxide(oxide));
  return {
    basis: of,
    oxides: Object.fromEntries(figures),
    ...(lossOnIgnition && { lossOnIgnition }),
  };
}

function workOutFormula(
  formula: string,
  ideal: boolean | undefined,
): { analysis: Analysis } | { fault: Fault } {
  const workedOut = analysisOfFormula(formula, { ideal: ideal ?? false });
  if (workedOut.kind === "analysis") return { analysis: workedOut.analysis };
  const says = `At character ${workedOut.at + 1}: ${workedOut.says}`;
  return { fault: { path: "formula", says } };
}

/** Where the oxides are a field of their own, their faults stand there. */
const amongOxides = ({ path, says }: Fault): Fault => ({
  path: path.replace(/^analysis/, "oxides"),
  says,
});

/** The shelf keeps six decimals, and no powder that takes up more than half its weight. */
function faultsOfKeeping(analysis: Analysis): Fault[] {
  const listed = oxides.map((oxide) => [`oxides.${oxide}`, analysis.oxides[oxide]] as const);
  const figures = [...listed, ["lossOnIgnition", analysis.lossOnIgnition] as const];
  const faults = figures.flatMap(([path, given]) =>
    (["percent", "plusMinus"] as const)
      .filter((part) => (given?.[part]?.decimalPlaces() ?? 0) > 6)
      .map((part) => ({ path: `${path}.${part}`, says: "At most six decimals." })),
  );
  return takesUpTooMuch(analysis) ? [...faults, tooMuch("lossOnIgnition.percent")] : faults;
}

const takesUpTooMuch = ({ lossOnIgnition }: Analysis): boolean =>
  lossOnIgnition?.percent.lt(-50) ?? false;
