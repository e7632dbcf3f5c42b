import type { Decimal } from "decimal.js";
import { pricePerGram } from "../../src/chem/cost.ts";
import { usedPercent } from "../../src/chem/stock-line.ts";
import type { ShownLot } from "../materials/lots.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { When } from "../people/when.tsx";
import { Day } from "../tiles/day.tsx";
import { CountForm } from "./lot-forms.tsx";
import { Moves, type ShownMove, WentInto } from "./moves.tsx";
import { ageWords, differenceWords, gramsWords, type LotAge } from "./words.ts";

export type LotPageProps = {
  lot: ShownLot & { material: { slug: string; name: string }; by: { name: string } };
  age: LotAge;
  moves: readonly ShownMove[];
  /** Whether the reader may recall it. */
  mayRecall: boolean;
  typed: { grams: string; why: string };
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** One lot: what it is, what is left of it, and where the rest went. */
export const LotPage = (props: LotPageProps) => {
  const { lot, age, moves, mayRecall, faults } = props;
  const { material, mark } = lot;
  return (
    <article>
      <h1>{mark === "" ? `A lot of ${material.name}` : `${material.name}, lot ${mark}`}</h1>
      <FaultSummary faults={faults} />
      <Recalled recalls={lot.recalls} />
      <Left lot={lot} age={age} counted={moves.find(({ because }) => because === "stocktake")} />
      <Facts lot={lot} />
      <CountForm {...props} lotId={lot.id} />
      {lot.recalls.length === 0 ? (
        <p class="actions">
          <a class="button quiet" href={`/lots/${lot.id}/uses/new`}>
            Take some out for something else
          </a>{" "}
          {mayRecall ? (
            <a class="button quiet" href={`/recalls/new?lot=${lot.id}`}>
              Recall this lot
            </a>
          ) : null}
        </p>
      ) : null}
      <WentInto moves={moves} />
      <Moves moves={moves} lot={lot} />
    </article>
  );
};

const Recalled = ({ recalls }: Pick<ShownLot, "recalls">) => (
  <>
    {recalls.map(({ id, why }) => (
      <section class="caution">
        <p>
          <strong>Recalled: do not use.</strong> {why}{" "}
          <a href={`/recalls/${id}`}>What it went into</a>
        </p>
      </section>
    ))}
  </>
);

type LeftProps = { lot: ShownLot; age: LotAge; counted: ShownMove | undefined };

const Left = ({ lot, age, counted }: LeftProps) => {
  const used = usedPercent(lot.grams, lot.leftGrams);
  const word = ageWords[age];
  return (
    <section id="left">
      <h2>What is left</h2>
      <p class="answer">{gramsWords(lot.leftGrams)}</p>
      <p>
        {lot.leftGrams.isNegative() ? (
          <strong>More was taken of it than is on record: count it. </strong>
        ) : null}
        {used ? `${plainNumber(used, 0)} % of it is used. ` : null}
        {lot.bestBefore ? (
          <>
            {word ? <strong>{word}. </strong> : null}Best before <Day on={lot.bestBefore} />.
          </>
        ) : null}
      </p>
      {counted ? (
        <p>
          Last counted by {counted.by}, <When at={counted.at} clock />:{" "}
          {differenceWords(counted.grams)}.
        </p>
      ) : (
        <p>Nobody has counted it yet.</p>
      )}
    </section>
  );
};

const Facts = ({ lot }: { lot: LotPageProps["lot"] }) => (
  <section>
    <h2>What it is</h2>
    <dl class="tile-facts">
      <div>
        <dt>Powder</dt>
        <dd>
          <a href={`/materials/${lot.material.slug}`}>{lot.material.name}</a>
        </dd>
      </div>
      <div>
        <dt>Bought</dt>
        <dd>
          {gramsWords(lot.grams)} of {lot.supplier.name},{" "}
          <Day on={lot.at.toISOString().slice(0, 10)} />, put on record by {lot.by.name}
        </dd>
      </div>
      <div>
        <dt>A kilogram cost</dt>
        <dd>
          {plainNumber(perKilogram(lot), 2)} {lot.currency}
        </dd>
      </div>
      <div>
        <dt>Analysis</dt>
        <dd>
          {lot.analysis ? (
            <a href={`/materials/${lot.material.slug}/analyses/${lot.analysis.id}`}>
              {lot.analysis.source}
            </a>
          ) : (
            "Not this lot's: nobody analysed it, and the powder's newest stands in with its ± doubled."
          )}
        </dd>
      </div>
    </dl>
  </section>
);

const perKilogram = (lot: ShownLot): Decimal => pricePerGram(lot).times(1000);
