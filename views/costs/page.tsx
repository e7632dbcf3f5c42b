import type { Decimal } from "decimal.js";
import { type Price, pricePerGram } from "../../src/chem/cost.ts";
import { columnOf } from "../../src/chem/money-text.ts";
import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { PowderName } from "../parts/powder-name.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { type Share, Shares } from "./shares.tsx";

type CostedLine = {
  material: { slug: string; name: string };
  grams: Decimal;
  price: Price | null;
  cost: Decimal | null;
};

type CostPageProps = {
  about: {
    title: string;
    /** What the table is of. */
    what: string;
    back: { href: string; name: string };
    action: string;
    revision?: string;
  };
  costed: {
    currency: string;
    cost: {
      grams: Decimal;
      lines: readonly CostedLine[];
      perKilogram: Decimal;
      without: readonly string[];
    };
  } | null;
  litre: {
    specificGravity: Decimal;
    drySpecificGravity: Decimal;
    dryGrams: Decimal;
    cost: Decimal | null;
    says: string;
  } | null;
  /** null where nobody can be told apart; undefined where nothing is shared. */
  shares?: readonly Share[] | null | undefined;
  typed: (name: string) => string;
  faults: readonly Fault[];
};

/** What powders cost by the kilogram, as a slurry by the litre, and for each who shares them. */
export const CostPage = (props: CostPageProps) => {
  const { about, costed, litre, shares, faults } = props;
  return (
    <article>
      <h1>{about.title}</h1>
      <FaultSummary faults={faults} />
      {costed ? (
        <>
          <p class="answer">
            {atLeast(costed.cost.without)}
            {money(costed.cost.perKilogram, costed.currency)} for a kilogram of dry powder, base and
            additions.
          </p>
          {litre ? <Litre litre={litre} costed={costed} /> : null}
          {costed.cost.without.length > 0 ? (
            <p>
              No price in {costed.currency} is on record of {costed.cost.without.join(", ")}, so
              that these are the least that it costs.
            </p>
          ) : null}
          <Lines what={about.what} costed={costed} />
          {shares ? <Shares shares={shares} {...costed} /> : null}
          {shares === null ? (
            <p>Nobody put down that they used it since then. Ask for equal shares below.</p>
          ) : null}
        </>
      ) : (
        <p>
          No price is on record, so nobody can say what it costs. A manager adds what was bought on
          the page of its powder, or <a href="/suppliers">what a supplier asks</a>.
        </p>
      )}
      <AskForm {...props} />
      <p>
        <a href={about.back.href}>Back to {about.back.name}</a>
      </p>
    </article>
  );
};

type Costed = NonNullable<CostPageProps["costed"]>;

const atLeast = (without: readonly string[]): string => (without.length > 0 ? "At least " : "");

const money = (amount: Decimal, currency: string): string =>
  `${plainNumber(amount, 2)} ${currency}`;

const Litre = ({
  litre,
  costed,
}: {
  litre: NonNullable<CostPageProps["litre"]>;
  costed: Costed;
}) => (
  <p>
    {litre.cost ? (
      <>
        {atLeast(costed.cost.without)}
        {money(litre.cost, costed.currency)} for a litre of slurry
      </>
    ) : (
      "A litre of slurry"
    )}{" "}
    at a gravity of {litre.specificGravity.toFixed()}, which holds {plainNumber(litre.dryGrams, 0)}{" "}
    g of dry powder. {litre.says}
  </p>
);

/** The printed column adds up to what is printed under it. */
const Lines = ({ what, costed: { currency, cost } }: { what: string; costed: Costed }) => {
  const priced = cost.lines.flatMap((line) => (line.cost ? [line.cost] : []));
  const { amounts, total } = columnOf(priced, 2);
  const weights = columnOf(
    cost.lines.map(({ grams }) => grams),
    1,
  );
  const printed = amounts.values();
  return (
    <Wide label={what}>
      <table class="lines stacked-lines">
        <caption>{what}</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col" class="number">
              Weight, g
            </th>
            <th scope="col" class="number">
              A kilogram of it
            </th>
            <th scope="col" class="number">
              Cost, {currency}
            </th>
          </tr>
        </thead>
        <tbody>
          {cost.lines.map(({ material, grams, price, cost: of }, place) => (
            <tr>
              <th scope="row">
                <a href={`/materials/${material.slug}#prices`}>
                  <PowderName name={material.name} />
                </a>
              </th>
              <td class="number" data-head="Weight, g">
                {plainNumber(weights.amounts[place] ?? grams, 1)}
              </td>
              <td class="number" data-head="A kilogram of it">
                {price ? money(pricePerGram(price).times(1000), currency) : "not known"}
              </td>
              <td class="number" data-head={`Cost, ${currency}`}>
                {of ? plainNumber(printed.next().value ?? of, 2) : "not known"}
              </td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">{cost.without.length > 0 ? "All that is known" : "All"}</th>
            <td class="number">{plainNumber(weights.total, 1)}</td>
            <td />
            <td class="number">{plainNumber(total, 2)}</td>
          </tr>
        </tfoot>
      </table>
    </Wide>
  );
};

const AskForm = ({ about, litre, shares, typed, faults }: CostPageProps) => (
  <form class="screen-only" method="get" action={about.action}>
    {about.revision ? <input type="hidden" name="revision" value={about.revision} /> : null}
    <Field
      label="As a slurry of specific gravity"
      name="gravity"
      value={typed("gravity") || (litre?.specificGravity.toFixed() ?? "")}
      fault={faultAt(faults, "gravity")}
      hint="Kilograms of one litre, as in 1.45."
      inputmode="decimal"
      autocomplete="off"
    />
    {shares === undefined ? null : (
      <Field
        label="In equal shares"
        name="shares"
        value={typed("shares")}
        fault={faultAt(faults, "shares")}
        hint="For how many people; by who used it where nothing is said."
        inputmode="numeric"
        autocomplete="off"
      />
    )}
    <p class="actions">
      <button type="submit">Work it out</button>
    </p>
  </form>
);
