import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "./analysis.ts";
import type { ChemistryLine, ChemistryRequest } from "./chemistry-types.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { assumedPlusMinus } from "./powder.ts";

/** One figure of one analysis that is only known to within its ±. */
export type Unknown = { key: string; of: Oxide | "loss"; plusMinus: Decimal };

/** Every listed oxide and given loss of every analysis that has a ±, one analysis once. */
export function unknownsOf(lines: readonly ChemistryLine[]): Unknown[] {
  const analyses = new Map(
    lines.flatMap(({ key, analysis }) => (analysis ? [[key, analysis]] : [])),
  );
  return [...analyses].flatMap(([key, analysis]) => {
    const listed = oxides.flatMap((oxide) => {
      const figure = analysis.oxides[oxide];
      return figure ? [{ key, of: oxide, plusMinus: plusMinusOf(figure, analysis) }] : [];
    });
    const { lossOnIgnition: loss } = analysis;
    const unknowns = loss
      ? [...listed, { key, of: "loss" as const, plusMinus: plusMinusOf(loss, analysis) }]
      : listed;
    return unknowns.filter(({ plusMinus }) => plusMinus.gt(0));
  });
}

function plusMinusOf({ percent, plusMinus }: Figure, { ideal }: Analysis): Decimal {
  if (plusMinus) return plusMinus;
  return new Decimal(ideal ? 0 : assumedPlusMinus(percent.toNumber()));
}

/** The request with one figure moved by so much, in every line of its analysis. */
export function moved(
  request: ChemistryRequest,
  { key, of }: Unknown,
  by: Decimal,
): ChemistryRequest {
  const change = (figure: Figure): Figure => ({ ...figure, percent: figure.percent.plus(by) });
  const lines = request.lines.map((line) => {
    const { analysis } = line;
    if (line.key !== key || !analysis) return line;
    if (of === "loss") {
      const { lossOnIgnition: loss } = analysis;
      return loss ? { ...line, analysis: { ...analysis, lossOnIgnition: change(loss) } } : line;
    }
    const figure = analysis.oxides[of];
    if (!figure) return line;
    return {
      ...line,
      analysis: { ...analysis, oxides: { ...analysis.oxides, [of]: change(figure) } },
    };
  });
  return { ...request, lines };
}
