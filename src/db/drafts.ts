import type { Decimal } from "decimal.js";
import type { ChemistryLine, Use } from "../chem/chemistry.ts";
import type { Cone } from "../chem/cones.ts";
import type { Part } from "../chem/lines.ts";
import type { PinnedAnalysis } from "./analyses.ts";
import { digestOf } from "./digests.ts";
import type { atmospheres } from "./schema/index.ts";

export type Atmosphere = (typeof atmospheres)[number];

export type DraftLine = {
  part: Part;
  material: { id: string; slug: string; name: string };
  /** What the line is pinned to; only an addition may be without. */
  analysis: PinnedAnalysis | null;
  amount: Decimal;
};

/** What somebody wants to publish: everything a revision says. */
export type Draft = {
  lines: readonly DraftLine[];
  use: Use;
  cones: { low: Cone; high: Cone };
  atmosphere: Atmosphere;
  surface: string;
  about: string;
  message: string;
};

/** The lines as the chemistry reads them: one analysis is one unknown wherever it stands. */
export const chemistryLines = (lines: readonly DraftLine[]): ChemistryLine[] =>
  lines.map(({ part, material, analysis, amount }) => ({
    key: analysis?.id ?? material.id,
    name: material.name,
    part,
    amount,
    analysis: analysis?.analysis ?? null,
    analysedOn: analysis?.measuredOn ?? undefined,
  }));

/**
 * What the melt is, whoever wrote it: materials with the digests of their pinned analyses and their
 * amounts, equal lines put together, in one order. Carries evidence.
 */
export function meltDigest(lines: readonly DraftLine[]): string {
  const amounts = new Map<
    string,
    { part: Part; material: string; analysis: string | null; amount: Decimal }
  >();
  for (const { part, material, analysis, amount } of lines) {
    const line = { part, material: material.id, analysis: analysis?.digest ?? null };
    const key = [line.part, line.material, line.analysis].join(" ");
    amounts.set(key, { ...line, amount: amounts.get(key)?.amount.plus(amount) ?? amount });
  }
  const inOrder = [...amounts.entries()].sort(([a], [b]) => (a < b ? -1 : 1));
  return digestOf(inOrder.map(([, line]) => ({ ...line, amount: line.amount.toFixed() })));
}

/** What is approved: the melt for a use, between two cones, in an atmosphere. */
export const revisionDigest = (
  melt: string,
  { use, cones, atmosphere }: Pick<Draft, "use" | "cones" | "atmosphere">,
): string => digestOf({ melt, use, cones, atmosphere });
