import { differsBy } from "../../src/chem/nearest.ts";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { claimWords } from "../tiles/cone-words.ts";
import type { ShownNeighbour, ShownNeighbours } from "./types.ts";

type NeighboursProps = {
  neighbours: Pick<ShownNeighbours, "of" | "items">;
  /** What they are compared with: `slack-water@2`. */
  from: string;
};

/** Recipes that lie near in chemistry, each with how far it is and in what. */
export const Neighbours = ({ neighbours: { of, items }, from }: NeighboursProps) =>
  items.length === 0 ? (
    <p>There is no other recipe here that you may see, or none with a flux in it.</p>
  ) : (
    <>
      <p>
        <strong>Not the same glaze.</strong> How far two are apart is the root of the summed squares
        of what they differ by in the fluxes, Al<sub>2</sub>O<sub>3</sub>, B<sub>2</sub>O
        <sub>3</sub> and SiO<sub>2</sub> of their unity formulas, with all that is in them. What
        colours or opacifies is not counted, nor which powders they are made of.
      </p>
      <Wide label="Nearest in chemistry">
        <table class="lines stacked-lines nearest-lines">
          <caption>Nearest first</caption>
          <thead>
            <tr>
              <th scope="col">Glaze</th>
              <th scope="col" class="number">
                Apart
              </th>
              <th scope="col">Fired</th>
              <th scope="col">What it has more or less of</th>
            </tr>
          </thead>
          <tbody>
            {items.map((each) => (
              <Neighbour each={each} of={of} from={from} />
            ))}
          </tbody>
        </table>
      </Wide>
    </>
  );

type NeighbourProps = { each: ShownNeighbour; of: ShownNeighbours["of"]; from: string };

const Neighbour = ({ each, of, from }: NeighbourProps) => {
  const differences = differsBy(of, each.unity);
  return (
    <tr>
      <th scope="row">
        <a href={`/recipes/${each.slug}`}>{each.name}</a> by {each.owner.name}
        {each.use === "decorative" ? ", decorative only" : ""}
      </th>
      <td class="number">{plainNumber(each.distance, 3)}</td>
      <td>
        {claimWords(each.cones)}, {each.atmosphere}
        {each.surface ? `, ${each.surface}` : ""}
      </td>
      <td class="compare-words">
        {differences.length === 0
          ? "nothing by 0.005 or more"
          : differences.map(({ oxide, by }, at) => (
              <>
                {at > 0 ? ", " : ""}
                <OxideName oxide={oxide} /> {by > 0 ? "+" : ""}
                {plainNumber(by, 3)}
              </>
            ))}
        {". "}
        <a href={`/compare?left=${from}&right=${each.slug}@${each.number}`}>Compare</a>
      </td>
    </tr>
  );
};
