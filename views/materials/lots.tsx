import type { Decimal } from "decimal.js";
import { pricePerGram } from "../../src/chem/cost.ts";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { analysisChangesHref } from "../replacement/types.ts";
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
};

type LotsProps = {
  slug: string;
  name: string;
  /** Newest first; null for a visitor, whom the studio's prices do not concern. */
  lots: readonly ShownLot[] | null;
  mayManage: boolean;
};

/** What was bought of a powder, from whom and for how much. */
export const Lots = ({ slug, name, lots, mayManage }: LotsProps) =>
  lots === null ? null : (
    <section id="lots">
      <h2>What was bought of it</h2>
      {lots.length === 0 ? (
        <p>No lot of it is on record, so nobody can say what a glaze with it costs.</p>
      ) : (
        <LotTable slug={slug} name={name} lots={lots} />
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

type LotTableProps = { slug: string; name: string; lots: readonly ShownLot[] };

const LotTable = ({ slug, name, lots }: LotTableProps) => {
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
          </tr>
        </thead>
        <tbody>
          {lots.map((lot) => (
            <tr id={`lot-${lot.id}`}>
              <th scope="row">
                <Day on={lot.at} />, {lot.supplier.name}
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
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
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
