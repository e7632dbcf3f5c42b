import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "./analysis.ts";
import { atomicWeight, type ElementSymbol } from "./elements.ts";
import { parseFormula, type Unreadable } from "./formula.ts";
import { exactMolarMass, type Oxide, oxideMakeUp, oxides } from "./oxides.ts";

export type WorkedOut = { kind: "analysis"; analysis: Analysis; molarMass: Decimal } | Unreadable;

/** Elements that leave the kiln, wholly or by this count. */
const leaving: ReadonlySet<ElementSymbol> = new Set<ElementSymbol>([
  "H",
  "C",
  "N",
  "O",
  "F",
  "Cl",
  "S",
]);

/** Those of them that harm as fumes and of which part may stay in the glass. */
const fuming: readonly ElementSymbol[] = ["F", "Cl", "S"];

const reportedAs = new Map<ElementSymbol, Oxide>(
  oxides.map((oxide) => [oxideMakeUp[oxide][0], oxide]),
);

/** Decimals of a percent; a limit of notation, far below what any powder is known to. */
const decimals = 12;

/**
 * The analysis of a powder from its formula, as weighed: every element in its reporting oxide, and
 * the loss as 100 × (M − fired mass)/M. Oxygen may be taken up, so a loss may be negative.
 * Fluorides and sulphates lose their anion to oxygen by this count; `givesOff` then names it.
 *
 * @param ideal that the powder is the formula itself, so that its figures have ± 0.
 * @returns `analysis` with percents and loss that add up to 100, and the molar mass in g/mol;
 *   `unreadable` where the text is no formula, holds an element that has no reporting oxide here,
 *   or leaves nothing after firing.
 *
 * Worked numbers: CaCO3 is CaO 56.03 with a loss of 43.97; Fe3O4 is Fe2O3 103.46 with −3.46.
 */
export function analysisOfFormula(text: string, { ideal = false } = {}): WorkedOut {
  const formula = parseFormula(text);
  if (formula.kind === "unreadable") return formula;
  const { elements, firstAt } = formula;
  const parts = new Map<Oxide, Decimal>();
  let molarMass = new Decimal(0);
  for (const [symbol, count] of elements) {
    molarMass = molarMass.plus(new Decimal(atomicWeight[symbol]).times(count));
    if (leaving.has(symbol)) continue;
    const oxide = reportedAs.get(symbol);
    if (!oxide) {
      const says = `No oxide of ${symbol} is held here, so this powder cannot be worked out.`;
      return { kind: "unreadable", at: firstAt.get(symbol) ?? 0, says };
    }
    parts.set(oxide, exactMolarMass(oxide).times(count).div(oxideMakeUp[oxide][1]));
  }
  if (parts.size === 0) {
    const says = "All of this leaves the kiln: nothing is left for a glaze.";
    return { kind: "unreadable", at: 0, says };
  }
  const figures: Partial<Record<Oxide, Figure>> = {};
  let loss = new Decimal(100);
  for (const oxide of oxides) {
    const mass = parts.get(oxide);
    if (!mass) continue;
    const percent = mass.times(100).div(molarMass).toDecimalPlaces(decimals);
    figures[oxide] = { percent };
    loss = loss.minus(percent);
  }
  const givesOff = fuming.filter((symbol) => elements.has(symbol));
  const analysis: Analysis = {
    basis: "asReceived",
    oxides: figures,
    lossOnIgnition: { percent: loss },
    ...(ideal ? { ideal } : {}),
    ...(givesOff.length > 0 ? { givesOff } : {}),
  };
  return { kind: "analysis", analysis, molarMass };
}
