import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "./analysis.ts";
import { assumedPlusMinus } from "./powder.ts";

/**
 * An analysis as it stands in for a lot that nobody analysed: the same figures with twice the ±, an
 * assumed one included. Common practice, no source.
 *
 * Worked number: 29.3 ± 0.8 becomes 29.3 ± 1.6; 29.3 without a ± becomes 29.3 ± 1.758.
 */
export function standingIn(analysis: Analysis): Analysis {
  const doubled = ({ percent, plusMinus }: Figure): Figure => {
    const own = plusMinus ?? new Decimal(analysis.ideal ? 0 : assumedPlusMinus(percent.toNumber()));
    return { percent, plusMinus: own.times(2) };
  };
  const { oxides, lossOnIgnition: loss } = analysis;
  return {
    ...analysis,
    oxides: Object.fromEntries(
      Object.entries(oxides).map(([oxide, figure]) => [oxide, doubled(figure)]),
    ),
    ...(loss && { lossOnIgnition: doubled(loss) }),
  };
}
