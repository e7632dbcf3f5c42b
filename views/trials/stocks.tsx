import type { Decimal } from "decimal.js";
import { trialMark } from "../../src/chem/tile-marks.ts";

type Named = { name: string };

export type StocksProps = {
  trial: { code: string };
  scaleGrams: Decimal;
  stocks: readonly {
    colourant: Named;
    carrier: Named;
    colourantGrams: Decimal;
    carrierGrams: Decimal;
    takes: readonly { n: number; grams: Decimal; leaveOut: Decimal }[];
  }[];
  without: readonly { colourant: Named; points: readonly number[] }[];
};

/** How to weigh what is too little for the scale: ground into a base powder first, then taken of that. */
export const Stocks = ({ trial, scaleGrams, stocks, without }: StocksProps) => {
  if (stocks.length + without.length === 0) return null;
  const decimals = scaleGrams.decimalPlaces();
  const shown = (grams: Decimal) => grams.toDecimalPlaces(decimals).toFixed();
  return (
    <section class="weigh-stocks">
      <h2>Too little for this scale</h2>
      {stocks.map((stock) => (
        <>
          <p>
            <strong>{stock.colourant.name}:</strong> grind {stock.colourantGrams.toFixed()} g of it
            into {stock.carrierGrams.toFixed()} g of {stock.carrier.name} until no speck is left. Of
            this stock take, and leave out as much of the point's own {stock.carrier.name} as comes
            with it:
          </p>
          <ul>
            {stock.takes.map(({ n, grams, leaveOut }) => (
              <li>
                {trialMark(trial, n)}: take {shown(grams)} g of the stock, leave out{" "}
                {shown(leaveOut)} g of {stock.carrier.name}
              </li>
            ))}
          </ul>
        </>
      ))}
      {without.map(({ colourant, points }) => (
        <p>
          <strong>{colourant.name}:</strong> no stock makes it weighable in{" "}
          {points.map((n) => trialMark(trial, n)).join(", ")} at this size. Weigh a larger batch, or
          on a finer scale.
        </p>
      ))}
    </section>
  );
};
