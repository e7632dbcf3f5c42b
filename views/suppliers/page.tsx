import type { Decimal } from "decimal.js";
import { pricePerGram } from "../../src/chem/cost.ts";
import { moneyText } from "../../src/chem/money-text.ts";
import { Day } from "../materials/day.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { gramsWords } from "../stock/words.ts";

type ShownPack = {
  material: { slug: string; name: string };
  packGrams: Decimal;
  packPrice: Decimal;
  currency: string;
  from: "list" | "lot";
  at: Date;
};

type ShownBought = Omit<ShownPack, "from"> & { id: string; grams: Decimal; mark: string };

export type SupplierPageProps = {
  supplier: { slug: string; name: string; about: string };
  packs: readonly ShownPack[];
  /** null where nobody put them down. */
  terms: {
    region: string;
    carriage: Decimal;
    freeFrom: Decimal | null;
    currency: string;
    at: Date;
  } | null;
  /** Newest first. */
  lots: readonly ShownBought[];
  mayManage: boolean;
  newKey: () => string;
};

/** A supplier: what it sells for how much, what sending costs, and what was bought of it. */
export const SupplierPage = (props: SupplierPageProps) => {
  const { supplier, packs, lots, mayManage } = props;
  return (
    <article>
      <h1>{supplier.name}</h1>
      {supplier.about === "" ? null : <p>{supplier.about}</p>}
      <Sending {...props} />
      <section id="packs">
        <h2>What it sells</h2>
        {packs.length === 0 ? <p>No price of it is on record.</p> : <Packs {...props} />}
        {mayManage ? (
          <p class="actions">
            <a class="button quiet" href={`/suppliers/${supplier.slug}/packs/new`}>
              Put a price on record
            </a>{" "}
            <a class="button quiet" href={`/suppliers/${supplier.slug}/price-list`}>
              Paste a price list
            </a>
          </p>
        ) : null}
      </section>
      <section id="lots">
        <h2>What was bought of it</h2>
        {lots.length === 0 ? <p>Nothing yet.</p> : <Bought lots={lots} name={supplier.name} />}
      </section>
    </article>
  );
};

const Sending = ({ supplier, terms, mayManage }: SupplierPageProps) => (
  <section id="terms">
    <h2>What sending costs</h2>
    {terms ? (
      <p>
        {termsWords(terms)} As of <Day on={terms.at} />.
      </p>
    ) : (
      <p>Nobody put it down, so a shopping list counts nothing for it.</p>
    )}
    {mayManage ? (
      <p class="actions">
        <a class="button quiet" href={`/suppliers/${supplier.slug}/terms`}>
          Put down what sending costs
        </a>
      </p>
    ) : null}
  </section>
);

type Terms = NonNullable<SupplierPageProps["terms"]>;

function termsWords({ carriage, freeFrom, currency, region }: Terms): string {
  const free = freeFrom ? `, and nothing from ${moneyText(freeFrom)} ${currency} on` : "";
  const sends = carriage.isZero()
    ? "It sends for nothing"
    : `${moneyText(carriage)} ${currency}${free}`;
  return `${sends}.${region === "" ? "" : ` Its names of powders: ${region}.`}`;
}

const Packs = ({ supplier, packs, mayManage, newKey }: SupplierPageProps) => (
  <Wide label={`Packs of ${supplier.name}`}>
    <table class="lines stacked-lines">
      <caption>
        Packs and their prices; what was paid for a lot counts where it is newer than the list
      </caption>
      <thead>
        <tr>
          <th scope="col">Powder</th>
          <th scope="col" class="number">
            A pack
          </th>
          <th scope="col" class="number">
            Price
          </th>
          <th scope="col" class="number">
            A kilogram
          </th>
          {mayManage ? (
            <th scope="col" class="screen-only">
              <span class="hidden-words">No longer sold</span>
            </th>
          ) : null}
        </tr>
      </thead>
      <tbody>
        {packs.map((pack) => (
          <tr>
            <th scope="row">
              <a href={`/materials/${pack.material.slug}`}>{pack.material.name}</a>
              <span class="line-analysis">
                {pack.from === "lot" ? "paid for a lot" : "on its list"}, <Day on={pack.at} />
              </span>
            </th>
            <td class="number" data-head="A pack">
              {gramsWords(pack.packGrams)}
            </td>
            <td class="number" data-head="Price">
              {moneyText(pack.packPrice)} {pack.currency}
            </td>
            <td class="number" data-head="A kilogram">
              {plainNumber(pricePerGram(pack).times(1000), 2)} {pack.currency}
            </td>
            {mayManage ? (
              <td class="screen-only">
                <form method="post" action={`/suppliers/${supplier.slug}/packs`}>
                  <input type="hidden" name="idempotencyKey" value={newKey()} />
                  <input type="hidden" name="material" value={pack.material.slug} />
                  <input type="hidden" name="packGrams" value={pack.packGrams.toFixed()} />
                  <button type="submit" name="stillSold" value="false" class="quiet">
                    No longer sold
                    <span class="hidden-words">
                      : {gramsWords(pack.packGrams)} of {pack.material.name}
                    </span>
                  </button>
                </form>
              </td>
            ) : null}
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const Bought = ({ lots, name }: { lots: readonly ShownBought[]; name: string }) => (
  <Wide label={`Lots of ${name}, newest first`}>
    <table class="lines stacked-lines">
      <caption>Lots of {name}, newest first</caption>
      <thead>
        <tr>
          <th scope="col">Lot</th>
          <th scope="col" class="number">
            Bought
          </th>
          <th scope="col" class="number">
            A pack
          </th>
        </tr>
      </thead>
      <tbody>
        {lots.map((lot) => (
          <tr>
            <th scope="row">
              <a href={`/lots/${lot.id}`}>
                {lot.material.name}, <Day on={lot.at} />
              </a>
              {lot.mark === "" ? null : <span class="line-analysis">on the bag: {lot.mark}</span>}
            </th>
            <td class="number" data-head="Bought">
              {gramsWords(lot.grams)}
            </td>
            <td class="number" data-head="A pack">
              {moneyText(lot.packPrice)} {lot.currency} for {gramsWords(lot.packGrams)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);
