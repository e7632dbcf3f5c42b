import type { Decimal } from "decimal.js";
import { PowderName } from "../parts/powder-name.tsx";
import { Wide } from "../parts/wide.tsx";
import { gramsWords } from "../stock/words.ts";
import { ShoppingForm, type ShoppingFormProps } from "./form.tsx";
import { Orders } from "./orders.tsx";
import type { ShownRow, ShownShopping } from "./types.ts";

type ShoppingPageProps = ShoppingFormProps & {
  /** undefined where what was asked has to be put right first. */
  list: ShownShopping | undefined;
  csvHref: string;
};

/** What to buy for what is planned: how much is missing, and the cheapest packs for it. */
export const ShoppingPage = ({ list, csvHref, ...form }: ShoppingPageProps) => (
  <article class="shopping">
    <h1>What to buy</h1>
    <p>
      What planned batches need, less what is in the room and may be used, in the cheapest packs by
      the prices on record. <a href="/plans">What is planned</a>, <a href="/stock">what is there</a>
      , <a href="/suppliers">who sells it</a>.
    </p>
    {list ? <List list={list} csvHref={csvHref} /> : null}
    <h2 class="screen-only">Buy for something else</h2>
    <ShoppingForm {...form} />
  </article>
);

const List = ({ list, csvHref }: { list: ShownShopping; csvHref: string }) => (
  <>
    {list.says.map((says) => (
      <p class="answer">{says}</p>
    ))}
    {list.rows.length > 0 ? (
      <>
        <Orders {...list} />
        <p class="actions">
          <a class="button quiet" href={csvHref}>
            For a spreadsheet (CSV)
          </a>{" "}
          <button type="button" class="quiet" data-print hidden>
            Print this page
          </button>
        </p>
        <Missing rows={list.rows} />
      </>
    ) : null}
    {list.wishes.length > 0 ? <Wishes {...list} /> : null}
  </>
);

const Missing = ({ rows }: { rows: readonly ShownRow[] }) => (
  <section id="missing">
    <h2>What is missing</h2>
    <Wide label="What is needed, there and missing">
      <table class="lines stacked-lines">
        <caption>Grams of each powder; what was recalled or is past its day is not there</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col" class="number">
              Needed
            </th>
            <th scope="col" class="number">
              There
            </th>
            <th scope="col" class="number">
              Missing
            </th>
            <th scope="col" class="number">
              Bought
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              <th scope="row">
                <a href={`/materials/${row.material.slug}`}>
                  <PowderName name={row.material.name} />
                </a>
                {row.notBought ? <span class="line-analysis">{row.notBought}</span> : null}
              </th>
              <Grams name="Needed" grams={row.needed} />
              <Grams name="There" grams={row.there} />
              <Grams name="Missing" grams={row.missing} />
              <Grams name="Bought" grams={row.bought} />
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  </section>
);

const Grams = ({ name, grams }: { name: string; grams: Decimal }) => (
  <td class="number" data-head={name}>
    {gramsWords(grams)}
  </td>
);

const Wishes = ({ wishes, budget }: Pick<ShownShopping, "wishes" | "budget">) => (
  <section id="wishes">
    <h2>What it is for</h2>
    <ol>
      {wishes.map(({ says, met, lacks }) => (
        <li>
          {says}
          {budget ? (
            <strong> {met ? "Within the budget." : "Not within the budget."}</strong>
          ) : null}
          {lacks.length > 0 ? ` Without ${lacks.join(", ")}, which is not bought here.` : null}
        </li>
      ))}
    </ol>
  </section>
);
