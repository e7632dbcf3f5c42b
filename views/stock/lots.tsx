import type { ShownStockLot } from "./types.ts";
import { ageWords, gramsWords, lotName } from "./words.ts";

/** The lots of a powder that are not used up, each with what speaks against it. */
export const StockLots = ({ lots }: { lots: readonly ShownStockLot[] }) =>
  lots.length === 0 ? (
    <span class="line-analysis">none left</span>
  ) : (
    <ul class="stock-lots">
      {lots.map((lot) => (
        <li>
          <a href={`/lots/${lot.id}`}>Lot {lotName(lot)}</a>: {gramsWords(lot.leftGrams)}
          <Marks lot={lot} />
        </li>
      ))}
    </ul>
  );

const Marks = ({ lot }: { lot: ShownStockLot }) => {
  const marks = marksOf(lot);
  return marks.length === 0 ? null : <strong>. {marks.join(". ")}</strong>;
};

/** What speaks against a lot, in words, worst first. */
export const marksOf = ({ recalls, age, leftGrams, bestBefore }: ShownStockLot): string[] => {
  const aged = ageWords[age];
  return [
    ...(recalls.length > 0 ? ["Recalled: do not use"] : []),
    ...(aged ? [`${aged}, ${bestBefore}`] : []),
    ...(leftGrams.isNegative() ? ["More was taken than is on record: count it"] : []),
  ];
};
