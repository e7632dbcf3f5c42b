import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "./analysis.ts";
import { isOxide, type Oxide } from "./oxides.ts";

/** What was typed, and what is wrong with it by the row of the text, from 1. */
export type AnalysisText = {
  oxides: Analysis["oxides"];
  loss: Figure | undefined;
  faults: { row: number; says: string }[];
};

const number = String.raw`\d{1,3}(?:[.,]\d{1,9})?`;
const row = new RegExp(
  String.raw`^([A-Za-z][A-Za-z0-9₀-₉]*)(?:\s*[:=]\s*|\s+)(-?${number})\s*%?(?:\s*(?:±|\+\/?-)\s*(${number})\s*%?)?$`,
);

const lossWords: readonly string[] = ["loi", "loss"];

/**
 * An analysis as people copy it from a supplier's sheet, an oxide a row: `SiO2 66.3`, with its ±
 * where the sheet gives one, `SiO2 66.3 ± 0.5`. A row `LOI 0.4` is the loss. Empty rows are passed
 * over; decimals may have a comma. Percents are of the powder as weighed.
 *
 * Worked number: "SiO2 66,3 +- 0.5" is 66.3 with ± 0.5.
 */
export function readAnalysisText(text: string): AnalysisText {
  const oxides: Partial<Record<Oxide, Figure>> = {};
  let loss: Figure | undefined;
  const faults: AnalysisText["faults"] = [];
  text.split(/\r\n|\r|\n/).forEach((typed, at) => {
    const said = typed.trim();
    if (said === "") return;
    const fault = (says: string) => faults.push({ row: at + 1, says });
    const [, word, percent, plusMinus] = row.exec(said) ?? [];
    if (word === undefined || percent === undefined) {
      fault(`“${said.slice(0, 40)}” does not read as an oxide and its percent: SiO2 66.3.`);
      return;
    }
    const figure = figureOf(percent, plusMinus);
    if (lossWords.includes(word.toLowerCase())) {
      if (loss) fault("The loss on ignition stands here twice.");
      loss = figure;
      return;
    }
    const oxide = plainDigits(word);
    if (!isOxide(oxide)) {
      fault(`No oxide is written “${word.slice(0, 20)}” here: SiO2, Al2O3, K2O, iron as Fe2O3.`);
      return;
    }
    if (oxides[oxide]) fault(`${oxide} stands here twice.`);
    oxides[oxide] = figure;
  });
  return { oxides, loss, faults };
}

const figureOf = (percent: string, plusMinus: string | undefined): Figure => ({
  percent: decimalOf(percent),
  ...(plusMinus !== undefined && { plusMinus: decimalOf(plusMinus) }),
});

const decimalOf = (digits: string): Decimal => new Decimal(digits.replace(",", "."));

/** Numbers that are set low, as sheets print them, for the plain ones. */
const plainDigits = (word: string): string =>
  word.replace(/[₀-₉]/g, (low) => String((low.codePointAt(0) ?? 0x2080) - 0x2080));
