import type { Decimal } from "decimal.js";
import { PowderName } from "../parts/powder-name.tsx";
import { Wide } from "../parts/wide.tsx";
import { StockLots } from "./lots.tsx";
import { type ShownStock, type StockFilter, stockFilters } from "./types.ts";
import { gramsWords, lastsWords } from "./words.ts";

type StockProps = {
  /** What is low first. */
  items: readonly ShownStock[];
  /** How many there are of each kind, whatever is shown. */
  counts: Record<StockFilter, number>;
  only: StockFilter | undefined;
  weeks: number;
  mayManage: boolean;
};

/** What there is of every powder, how far it goes, and what is low. */
export const StockPage = ({ items, counts, only, weeks, mayManage }: StockProps) => {
  const shown = items.filter(({ everBought, lineIs }) => everBought || lineIs === "own");
  const never = items.filter((item) => !shown.includes(item));
  return (
    <section id="stock">
      <h1>What is in stock</h1>
      <p>
        What was bought, less what went into mixes and other uses, put right by counting. A powder
        is low where less of it may be used than {weeksWords(weeks)} of its use over the last twelve
        weeks, or than the line that a manager drew.
      </p>
      <p class="actions">
        <a class="button quiet" href="/stock/count">
          Count what is there
        </a>{" "}
        <a class="button quiet" href="/shopping?low=on">
          What to buy
        </a>{" "}
        <a class="button quiet" href="/recalls">
          Recalls
        </a>
      </p>
      <Filters only={only} counts={counts} />
      {shown.length === 0 ? (
        <Nothing only={only} />
      ) : (
        <Table items={shown} only={only} mayManage={mayManage} />
      )}
      {never.length === 0 ? null : <NeverBought items={never} />}
    </section>
  );
};

const weeksWords = (weeks: number): string => (weeks === 1 ? "one week" : `${weeks} weeks`);

const Filters = ({ only, counts }: Pick<StockProps, "only" | "counts">) => (
  <nav aria-label="Which powders">
    <ul class="stock-filters">
      <li>
        <a href="/stock" aria-current={only === undefined ? "page" : undefined}>
          All
        </a>
      </li>
      {stockFilters.map((filter) => (
        <li>
          <a href={`/stock?only=${filter}`} aria-current={only === filter ? "page" : undefined}>
            {filterWords[filter]} ({counts[filter]})
          </a>
        </li>
      ))}
    </ul>
  </nav>
);

const filterWords = { low: "Low", expired: "Past their day", recalled: "Recalled" } as const;

const Nothing = ({ only }: { only: StockFilter | undefined }) => {
  switch (only) {
    case undefined:
      return (
        <p>
          No lot is on record yet. A manager adds what was bought on the page of its powder, on the{" "}
          <a href="/materials">shelf</a>.
        </p>
      );
    case "low":
      return <p>Nothing is low.</p>;
    case "expired":
      return <p>Nothing that is left is past its day.</p>;
    case "recalled":
      return <p>Nothing that is left is recalled.</p>;
  }
};

type TableProps = Pick<StockProps, "items" | "only" | "mayManage">;

const Table = ({ items, only, mayManage }: TableProps) => {
  const caption = only
    ? `Powders: ${filterWords[only].toLowerCase()}`
    : "Powders, what is low first";
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines stock">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Powder and its lots</th>
            <th scope="col" class="number">
              To use
            </th>
            <th scope="col" class="number">
              Used a week
            </th>
            <th scope="col" class="number">
              Least
            </th>
            <th scope="col">Lasts</th>
          </tr>
        </thead>
        <tbody>
          {items.map((item) => (
            <Row item={item} mayManage={mayManage} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

const Row = ({ item, mayManage }: { item: ShownStock; mayManage: boolean }) => {
  const { material, usable, total, perWeek, line, lineIs, isLow, lastsWeeks, lots } = item;
  return (
    <tr id={material.slug}>
      <th scope="row">
        <a href={`/materials/${material.slug}#lots`}>
          <PowderName name={material.name} />
        </a>
        {isLow ? <strong class="stock-low">Low</strong> : null}
        <StockLots lots={lots} />
      </th>
      <td class="number" data-head="To use">
        {grams(usable)}
        {total.eq(usable) ? null : <span class="line-analysis">of {grams(total)} left</span>}
      </td>
      <td class="number" data-head="Used a week">
        {perWeek.isZero() ? "none" : grams(perWeek)}
      </td>
      <td class="number" data-head="Least">
        {line.isZero() ? "none" : grams(line)}
        {lineIs === "own" ? <span class="line-analysis">drawn by hand</span> : null}
        {mayManage ? (
          <span class="line-analysis screen-only">
            <a href={`/materials/${material.slug}/stock-line`}>
              Set it<span class="hidden-words">: the least of {material.name}</span>
            </a>
          </span>
        ) : null}
      </td>
      <td data-head="Lasts">{lastsWords(lastsWeeks)}</td>
    </tr>
  );
};

/** To the tenth of a gram: what is left exactly stands on the page of each lot. */
const grams = (amount: Decimal): string => gramsWords(amount.toDecimalPlaces(1));

const NeverBought = ({ items }: { items: readonly ShownStock[] }) => (
  <p>
    No lot is on record of{" "}
    {items.map(({ material }, place) => (
      <>
        {place > 0 ? ", " : ""}
        <a href={`/materials/${material.slug}#lots`}>
          <PowderName name={material.name} />
        </a>
      </>
    ))}
    .
  </p>
);
