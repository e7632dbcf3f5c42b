import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import type { Cone } from "../../src/chem/cones.ts";
import {
  compareWithLimits,
  type LimitRow,
  type LimitSet,
  limitsFor,
} from "../../src/chem/limits.ts";
import { OxideName } from "./oxide.tsx";
import { plainNumber, Quantity } from "./quantity.tsx";
import { Wide } from "./wide.tsx";

type LimitTablesProps = { chemistry: Chemistry; cone: Cone };

/** The glaze held against the limit formulas that were printed for its cone, or that there is none. */
export const LimitTables = ({ chemistry, cone }: LimitTablesProps) => {
  const held = limitsFor(cone);
  return (
    <section class="limits">
      <h3>Printed limits for cone {cone}</h3>
      {held.kind === "none" ? (
        <p>There is {held.says}. Limits of other cones say nothing here.</p>
      ) : (
        <>
          <p>
            Inside means that the author's glazes lay there. It does not say how this one wears,
            leaches or fits.
          </p>
          {held.sets.map((set) => (
            <Limits chemistry={chemistry} set={set} />
          ))}
        </>
      )}
    </section>
  );
};

const Limits = ({ chemistry, set }: { chemistry: Chemistry; set: LimitSet }) => {
  const compared = compareWithLimits(chemistry, set);
  if (compared.kind === "no-unity") return <p>{compared.says}</p>;
  const caption = `${set.family === "any" ? "Any family" : set.family}, cone ${set.printedCones}`;
  return (
    <>
      <Wide label={caption}>
        <table class="figures">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Oxide</th>
              <th scope="col">This glaze</th>
              <th scope="col">Limits</th>
              <th scope="col">Where it lies</th>
            </tr>
          </thead>
          <tbody>
            {compared.rows.map((row) => (
              <Row row={row} />
            ))}
          </tbody>
        </table>
      </Wide>
      <p class="finding-source">
        {set.source}
        {set.soft ? ". Soft: not seen in print." : "."}
        {compared.notPrinted.length > 0
          ? ` It says nothing of ${compared.notPrinted.join(", ")}.`
          : ""}
      </p>
    </>
  );
};

const Row = ({ row }: { row: LimitRow }) => (
  <tr>
    <th scope="row">
      {row.oxide === "KNaO" ? "Potash and soda" : <OxideName oxide={row.oxide} />}
    </th>
    <td>
      <Quantity value={row.value} plusMinus={row.plusMinus} digits={3} />
    </td>
    <td>
      {plainNumber(row.least, 2)} to {plainNumber(row.most, 2)}
    </td>
    <td>{row.says}</td>
  </tr>
);
