import { When } from "../people/when.tsx";
import type { Cost } from "./types.ts";

/** A unit as people write it. */
export const unitWords = (unit: string): string => (unit === "m3" ? "m³" : unit);

/** What a firing used and cost, as far as somebody said. */
export const CostOf = ({ cost }: { cost: Cost | undefined }) =>
  cost === undefined ? (
    <p>Nobody has said what it used.</p>
  ) : (
    <p id="cost">
      <strong>
        {cost.amount.toFixed()} {unitWords(cost.unit)} of {cost.energy}
      </strong>
      {priceWords(cost)}. Put down by {cost.by.name}, <When at={cost.at} />.
    </p>
  );

function priceWords({ price, perUnit, currency, unit }: Cost): string {
  if (price === null) return "; what it cost is not told";
  const each =
    perUnit === null
      ? ""
      : `, ${perUnit.toSignificantDigits(3).toFixed()} ${currency} for each ${unitWords(unit)}`;
  return `; ${price.toFixed(2)} ${currency} for the firing${each}`;
}
