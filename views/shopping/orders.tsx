import { moneyText } from "../../src/chem/money-text.ts";
import { Wide } from "../parts/wide.tsx";
import { gramsWords } from "../stock/words.ts";
import type { ShownCalled, ShownOrder, ShownShopping } from "./types.ts";

/** What to ask each supplier for, by the names that it knows, and what it comes to. */
export const Orders = ({ orders, total, currency }: ShownShopping) => (
  <section id="orders">
    <h2>What to buy</h2>
    {orders.length === 0 ? <p>Nothing is bought.</p> : null}
    {orders.map((order) => (
      <SupplierOrder order={order} currency={currency} />
    ))}
    {orders.length > 0 ? (
      <p class="answer">
        Together {moneyText(total)} {currency}.
      </p>
    ) : null}
  </section>
);

type SupplierOrderProps = { order: ShownOrder; currency: string | null };

const SupplierOrder = ({ order, currency }: SupplierOrderProps) => {
  const { supplier, packs, region } = order;
  const words = region === "" ? "" : `; names of powders: ${region}`;
  const caption = `${supplier.name}, ${currency}${words}`;
  return (
    <>
      <h3>
        <a href={`/suppliers/${supplier.slug}`}>{supplier.name}</a>
      </h3>
      <Wide label={caption}>
        <table class="lines stacked-lines">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Powder</th>
              <th scope="col" class="number">
                Packs
              </th>
              <th scope="col" class="number">
                One pack
              </th>
              <th scope="col" class="number">
                Sum
              </th>
            </tr>
          </thead>
          <tbody>
            {packs.map(({ material, called, packGrams, packPrice, count, sum }) => (
              <tr>
                <th scope="row">
                  <Called material={material} called={called} region={region} />
                </th>
                <td class="number" data-head="Packs">
                  {count} of {gramsWords(packGrams)}
                </td>
                <td class="number" data-head="One pack">
                  {moneyText(packPrice)}
                </td>
                <td class="number" data-head="Sum">
                  {moneyText(sum)}
                </td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <SumRow name="Packs" amount={moneyText(order.subtotal)} />
            <SumRow name={carriageWords(order, currency)} amount={moneyText(order.carriage)} />
            <SumRow name={`All of ${supplier.name}`} amount={moneyText(order.total)} />
          </tfoot>
        </table>
      </Wide>
    </>
  );
};

const SumRow = ({ name, amount }: { name: string; amount: string }) => (
  <tr>
    <th scope="row" colspan={3}>
      {name}
    </th>
    <td class="number">{amount}</td>
  </tr>
);

function carriageWords({ terms, toFree, carriage }: ShownOrder, currency: string | null): string {
  if (terms === null) return "Sending: not on record";
  if (toFree) return `Sending; free with ${moneyText(toFree)} ${currency} more`;
  return carriage.isZero() && terms.freeFrom ? "Sending: free" : "Sending";
}

type CalledProps = {
  material: { slug: string; name: string };
  called: ShownCalled | null;
  region: string;
};

/** The supplier's word first, the studio's beside it, and what it could be mistaken for. */
const Called = ({ material, called, region }: CalledProps) => {
  const own = <a href={`/materials/${material.slug}`}>{material.name}</a>;
  if (called === null)
    return (
      <>
        {own}
        {region === "" ? null : (
          <span class="line-analysis">no name there is on record: the studio's own</span>
        )}
      </>
    );
  return (
    <>
      {called.name === material.name ? (
        own
      ) : (
        <>
          {called.name} ({own})
        </>
      )}
      {called.also.length > 0 ? (
        <span class="line-analysis">also {called.also.join(", ")}</span>
      ) : null}
      {called.caution ? <span class="line-analysis">{called.caution}</span> : null}
      {called.lookAlikes.map((other) => (
        <span class="line-analysis">
          “{other.word}” is also a name of <a href={`/materials/${other.slug}`}>{other.name}</a>
          {other.region ? ` (${other.region})` : ""}. {other.caution}
        </span>
      ))}
    </>
  );
};
