import { type Analysis, faultsOfAnalysis } from "../chem/analysis.ts";
import { readAnalysisText } from "../chem/analysis-text.ts";
import { analysisOfFormula } from "../chem/worked-out.ts";
import type { OwnPowder } from "../wire/handout-query.ts";
import type { Fault } from "../wire/problems.tsx";

/** A powder that the reader can buy; `slug` is the one of the handout that it takes the place of. */
export type Own = { slug: string; name: string; analysis: Analysis };

export type OwnRead = { kind: "read"; own: Own[] } | { kind: "faulty"; faults: Fault[] };

/**
 * The reader's powders, each with the analysis that was typed. Rows of a form that nothing was typed
 * in are passed over; faults stand at the row and field that they come from.
 */
export function readOwn(
  rows: readonly OwnPowder[],
  materials: readonly { slug: string; name: string }[],
): OwnRead {
  const own: Own[] = [];
  const faults: Fault[] = [];
  rows.forEach((row, at) => {
    if (Object.values(row).every((value) => value === undefined)) return;
    const fault = (field: string, says: string) =>
      faults.push({ path: `own.${at}.${field}`, says });
    const material = materials.find(({ slug }) => slug === row.material);
    if (!material) {
      const asked = row.material ?? "";
      fault("material", asked === "" ? whichPowder : `This handout has no powder “${asked}”.`);
      return;
    }
    if (own.some(({ slug }) => slug === material.slug)) {
      fault("material", `${material.name} is given twice. Give one analysis of it.`);
      return;
    }
    const name = row.name ?? `${material.name}, your own`;
    const taken = [...materials, ...own].some(
      (other) => other.slug !== material.slug && (other.slug === name || other.name === name),
    );
    if (taken || name === material.slug) {
      fault("name", "Another powder is called so here. Call yours by the maker's name too.");
      return;
    }
    const read = analysisIn(row);
    for (const { path, says } of read.faults) fault(path, says);
    if (read.analysis) own.push({ slug: material.slug, name, analysis: read.analysis });
  });
  if (faults.length > 0) return { kind: "faulty", faults };
  if (own.length === 0)
    return { kind: "faulty", faults: [{ path: "own.0.material", says: whichPowder }] };
  return { kind: "read", own };
}

const whichPowder = "Choose the powder of this handout that yours takes the place of.";

/** What was typed of one powder; without an analysis there are faults. */
function analysisIn({ oxides, formula, loss, lossPlusMinus, ideal }: OwnPowder): {
  analysis?: Analysis;
  faults: Fault[];
} {
  const faulty = (...faults: Fault[]) => ({ faults });
  if (formula !== undefined) {
    if (oxides !== undefined)
      return faulty({ path: "formula", says: "Give a formula or oxides, not both." });
    if (loss)
      return faulty({ path: "loss", says: "A formula's loss is worked out: leave it empty." });
    const found = analysisOfFormula(formula, { ideal: ideal ?? false });
    if (found.kind === "analysis") return { analysis: found.analysis, faults: [] };
    return faulty({ path: "formula", says: `At character ${found.at + 1}: ${found.says}` });
  }
  if (oxides === undefined)
    return faulty({
      path: "oxides",
      says: "Give its oxides, one a row: SiO2 66.3. Or give a formula.",
    });
  const read = readAnalysisText(oxides);
  if (read.faults.length > 0)
    return faulty(
      ...read.faults.map(({ row, says }) => ({ path: "oxides", says: `Row ${row}: ${says}` })),
    );
  if (loss && read.loss)
    return faulty({ path: "loss", says: "The loss on ignition stands among the oxides too." });
  const lossOnIgnition = loss
    ? { percent: loss, ...(lossPlusMinus && { plusMinus: lossPlusMinus }) }
    : read.loss;
  const analysis: Analysis = {
    basis: "asReceived",
    oxides: read.oxides,
    ...(lossOnIgnition && { lossOnIgnition }),
  };
  const faults = faultsOfAnalysis(analysis).map(({ path, says }) => ({
    path: path.startsWith("lossOnIgnition") ? "loss" : "oxides",
    says: oxideOf(path) ? `${oxideOf(path)}: ${says}` : says,
  }));
  return faults.length > 0 ? { faults } : { analysis, faults };
}

const oxideOf = (path: string): string | undefined => /^analysis\.(\w+)\./.exec(path)?.[1];
