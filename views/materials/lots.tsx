import type { Decimal } from "decimal.js";
import { pricePerGram } from "../../src/chem/cost.ts";
import { lotAge } from "../../src/chem/stock-line.ts";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { analysisChangesHref } from "../replacement/types.ts";
import { ageWords } from "../stock/words.ts";
import { Day } from "./day.tsx";

export type ShownLot = {
  id: string;
  supplier: { slug: string; name: string };
  analysis: { id: string; source: string; measuredOn: string | null } | null;
  packGrams: Decimal;
  packPrice: Decimal;
  currency: string;
  grams: Decimal;
  mark: string;
  at: Date;
  bestBefore: string | null;
  leftGrams: Decimal;
  /** That nobody closed. */
  recalls: readonly { id: string; why: string }[];
};

type LotsProps = {
  slug: string;
  name: string;
  /** Newest first; null for a visitor, whom the studio's prices do not concern. */
  lots: readonly ShownLot[] | null;
  /** Such as 2026-03-01, which lots are held against. */
  today: string;
  mayManage: boolean;
};

/** What was bought of a powder, from whom and for how much. */
export const Lots = ({ slug, name, lots, today, mayManage }: LotsProps) =>
  lots === null ? null : (
    <section id="lots">
      <h2>What was bought of it</h2>
      {lots.length === 0 ? (
        <p>No lot of it is on record, so nobody can say what a glaze with it costs.</p>
      ) : (
        <LotTable slug={slug} name={name} lots={lots} today={today} />
      )}
      {mayManage ? (
        <p class="actions">
          <a class="button quiet" href={`/materials/${slug}/lots/new`}>
            Add a lot
          </a>
        </p>
      ) : null}
    </section>
  );

type LotTableProps = { slug: string; name: string; lots: readonly ShownLot[]; today: string };

const LotTable = ({ slug, name, lots, today }: LotTableProps) => {
  const caption = `Lots of ${name}, newest first: the first is what it costs now`;
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col" class="number">
              A kilogram
            </th>
            <th scope="col" class="number">
              A pack
            </th>
            <th scope="col" class="number">
              Bought, kg
            </th>
            <th scope="col" class="number">
              Left, kg
            </th>
          </tr>
        </thead>
        <tbody>
          {lots.map((lot) => (
            <tr id={`lot-${lot.id}`}>
              <th scope="row">
                <a href={`/lots/${lot.id}`}>
                  <Day on={lot.at} />, {lot.supplier.name}
                </a>
                <LotMarks lot={lot} today={today} />
                {lot.mark === "" ? null : <span class="line-analysis">on the bag: {lot.mark}</span>}
                <span class="line-analysis">
                  <LotAnalysis slug={slug} analysis={lot.analysis} />
                </span>
              </th>
              <td class="number">
                {plainNumber(pricePerGram(lot).times(1000), 2)} {lot.currency}
              </td>
              <td class="number">
                {plainNumber(lot.packPrice, 2)} for {kilograms(lot.packGrams)} kg
              </td>
              <td class="number">{kilograms(lot.grams)}</td>
              <td class="number">{kilograms(lot.leftGrams).replace("-", "−")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

/** What speaks against using a lot. */
const LotMarks = ({ lot, today }: { lot: ShownLot; today: string }) => {
  const age = ageWords[lotAge(lot.bestBefore, today)];
  return (
    <>
      {lot.recalls.length === 0 ? null : <strong> Recalled: do not use. </strong>}
      {age ? <strong> {age}. </strong> : null}
    </>
  );
};

const kilograms = (grams: Decimal): string => grams.div(1000).toFixed();

const LotAnalysis = ({ slug, analysis }: { slug: string; analysis: ShownLot["analysis"] }) =>
  analysis ? (
    <>
      its analysis:{" "}
      <a href={`/materials/${slug}/analyses/${analysis.id}`}>
        {analysis.source}
        {analysis.measuredOn ? `, ${analysis.measuredOn}` : null}
      </a>{" "}
      (<a href={analysisChangesHref(slug, analysis.id)}>recipes restated for it</a>)
    </>
  ) : (
    <>not this lot's analysis: the powder's own stands in for it</>
  );
