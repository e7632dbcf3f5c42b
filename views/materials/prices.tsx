import type { Decimal } from "decimal.js";
import { pricePerGram } from "../../src/chem/cost.ts";
import { moneyText } from "../../src/chem/money-text.ts";
import { PriceLog } from "../charts/price-log.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { gramsWords } from "../stock/words.ts";
import { Day } from "./day.tsx";

export type ShownPrice = {
  at: Date;
  supplier: { slug: string; name: string };
  packGrams: Decimal;
  packPrice: Decimal;
  currency: string;
  from: "lot" | "list";
};

type PricesProps = {
  name: string;
  /** Newest first; null for a visitor, whom the studio's prices do not concern. */
  prices: readonly ShownPrice[] | null;
};

/** What a powder cost over time, as it was paid and as suppliers asked. */
export const Prices = ({ name, prices }: PricesProps) =>
  prices === null || prices.length === 0 ? null : (
    <section id="prices">
      <h2>What it cost over time</h2>
      <Drawn name={name} prices={prices} />
      <PriceTable name={name} prices={prices} />
    </section>
  );

type SomePrices = { name: string; prices: readonly ShownPrice[] };

/** In the currency of the newest price: others cannot be drawn beside it. */
const Drawn = ({ name, prices }: SomePrices) => {
  const currency = prices[0]?.currency ?? "";
  const points = prices
    .filter((price) => price.currency === currency)
    .map((price) => ({
      ...{ at: price.at, from: price.from },
      perKilogram: pricePerGram(price).times(1000).toNumber(),
    }))
    .reverse();
  if (points.length < 2) return null;
  return (
    <figure>
      <PriceLog name={name} currency={currency} points={points} />
      <figcaption>
        The line joins what was paid; a hollow point stood on a list. Packs of different sizes have
        different prices.
      </figcaption>
    </figure>
  );
};

const PriceTable = ({ name, prices }: SomePrices) => {
  const caption = `Prices of ${name}, newest first`;
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">When and whose</th>
            <th scope="col" class="number">
              A pack
            </th>
            <th scope="col" class="number">
              A kilogram
            </th>
          </tr>
        </thead>
        <tbody>
          {prices.map((price) => (
            <tr>
              <th scope="row">
                <Day on={price.at} />,{" "}
                <a href={`/suppliers/${price.supplier.slug}`}>{price.supplier.name}</a>
                <span class="line-analysis">
                  {price.from === "lot" ? "paid for a lot" : "on its list"}
                </span>
              </th>
              <td class="number" data-head="A pack">
                {moneyText(price.packPrice)} for {gramsWords(price.packGrams)}
              </td>
              <td class="number" data-head="A kilogram">
                {plainNumber(pricePerGram(price).times(1000), 2)} {price.currency}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};
