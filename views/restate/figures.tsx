import { OxideName } from "../parts/oxide.tsx";
import { Quantity } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import type { ShownFigures } from "./types.ts";

/** What the restated base loses, how its glass expands and what it costs, beside the wanted one. */
export const FiguresBeside = ({
  figures: { loss, expansion, cost },
}: {
  figures: ShownFigures;
}) => {
  const outside = [...new Set(expansion.models.flatMap(({ got }) => got.outside))];
  return (
    <>
      <Wide label="Figures of the bases beside each other">
        <table class="figures">
          <caption>Loss, expansion{cost ? " and cost" : ""} of the base</caption>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col">Wanted</th>
              <th scope="col">Got</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">Loss on ignition, %</th>
              <td>{loss.wanted ? <Quantity {...loss.wanted} digits={2} /> : "any"}</td>
              <td>
                <Quantity {...loss.got} digits={2} />
              </td>
            </tr>
          </tbody>
          <tbody>
            <tr>
              <th scope="rowgroup" colspan={3} class="group">
                Expansion, 10⁻⁶/K
              </th>
            </tr>
            {expansion.models.map(({ name, wanted, got }) => (
              <tr>
                <th scope="row">{name}</th>
                <td>{wanted ? <Grown of={wanted} /> : "any"}</td>
                <td>
                  <Grown of={got} />
                </td>
              </tr>
            ))}
          </tbody>
          {cost ? (
            <tbody>
              <tr>
                <th scope="row">Cost of a kilogram, {cost.currency}</th>
                <td>{cost.wanted ? <Money of={cost.wanted} /> : "any"}</td>
                <td>
                  <Money of={cost.got} />
                </td>
              </tr>
            </tbody>
          ) : null}
        </table>
      </Wide>
      {outside.length > 0 ? (
        <p>
          {outside.map((oxide, place) => (
            <>
              {place > 0 ? ", " : ""}
              <OxideName oxide={oxide} />
            </>
          ))}
          : left out by at least one of the models, which have no factor for it.
        </p>
      ) : null}
      <p>
        No reference on this body yet: a number like this says nothing of fit by itself. The ± is
        that of the analyses; the models' own error is never less than how far they lie apart.
      </p>
    </>
  );
};

type Expansion = ShownFigures["expansion"]["models"][number]["got"];

const Grown = ({ of: { value, plusMinus } }: { of: Expansion }) => (
  <Quantity
    value={value}
    plusMinus={plusMinus}
    digits={2}
    reason="more than 2 % of the glass has no factor"
  />
);

const Money = ({ of }: { of: NonNullable<ShownFigures["cost"]>["got"] }) =>
  of.perKilogram === null ? (
    <>not known: no price of {of.without.join(", ")}</>
  ) : (
    <span>{Number(of.perKilogram).toFixed(2)}</span>
  );
