import type { Decimal } from "decimal.js";
import type { Difference, FigureName } from "../../src/chem/differences.ts";
import { FiguresBeside, UnityBeside } from "../compare/tables.tsx";
import { lotWords } from "../mixes/words.ts";
import { PowderName } from "../parts/powder-name.tsx";
import { Wide } from "../parts/wide.tsx";

type ShownPowder = {
  material: { slug: string; name: string };
  lot: { id: string; mark: string; supplier: string } | null;
  notThisLot: boolean;
  grams: Decimal;
};

/** What is in a bucket now, and how it stands beside its revision. */
export type ShownContents = {
  dryGrams: Decimal;
  lots: readonly ShownPowder[];
  assumed: readonly string[];
  chemistry: {
    differences: readonly Difference[];
    figures: readonly Difference<FigureName>[];
    moved: readonly string[];
    asPlanned: boolean;
  } | null;
};

/** The powders that are in a bucket by the bags they came out of, and what they make of the glaze. */
export const WentIn = ({ contents }: { contents: ShownContents }) => {
  const { dryGrams, lots, assumed, chemistry } = contents;
  const caption = "Dry powders in it now, by the bag";
  return (
    <section id="contents">
      <h2>What went in</h2>
      {lots.length === 0 ? (
        <p>No powder was weighed into it since it was last empty.</p>
      ) : (
        <>
          <p>About {gramsOf(dryGrams)} g of dry powder are in it.</p>
          {assumed.map((says) => (
            <p>{says}</p>
          ))}
          <Wide label={caption}>
            <table>
              <caption>{caption}</caption>
              <thead>
                <tr>
                  <th scope="col">Powder</th>
                  <th scope="col">Lot</th>
                  <th scope="col" class="number">
                    Grams
                  </th>
                </tr>
              </thead>
              <tbody>
                {lots.map((powder) => (
                  <PowderRow powder={powder} />
                ))}
              </tbody>
            </table>
          </Wide>
        </>
      )}
      {chemistry ? <Beside chemistry={chemistry} /> : null}
    </section>
  );
};

const PowderRow = ({ powder }: { powder: ShownPowder }) => {
  const { material, lot, notThisLot, grams } = powder;
  return (
    <tr>
      <th scope="row">
        <a href={`/materials/${material.slug}`}>
          <PowderName name={material.name} />
        </a>
      </th>
      <td>
        {lot ? <a href={`/lots/${lot.id}`}>{lotWords(lot)}</a> : "nobody could tell which bag"}
        {notThisLot ? "; not this lot's analysis" : null}
      </td>
      <td class="number">{gramsOf(grams)}</td>
    </tr>
  );
};

const names = { left: "Revision", right: "Bucket" };

const Beside = ({ chemistry }: { chemistry: NonNullable<ShownContents["chemistry"]> }) => (
  <details class="fold" open={chemistry.moved.length > 0}>
    <summary>What is in it beside the revision</summary>
    <p class="answer">
      {chemistry.moved.length === 0
        ? "It stays inside what an approval bears."
        : `It is further from the revision than an approval bears: ${chemistry.moved.join("; ")}.`}
    </p>
    {chemistry.asPlanned ? <p>The rest of the mix that is open counts as planned.</p> : null}
    <UnityBeside names={names} differences={chemistry.differences} />
    <FiguresBeside names={names} figures={chemistry.figures} />
  </details>
);

const gramsOf = (grams: Decimal): string => grams.toDecimalPlaces(0).toFixed();
