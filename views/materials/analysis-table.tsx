import { type Analysis, type Powder, powderOf } from "../../src/chem/analysis.ts";
import { type Oxide, oxideRole } from "../../src/chem/oxides.ts";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";
import { Term } from "../parts/term.tsx";
import { Wide } from "../parts/wide.tsx";

type AnalysisTableProps = { analysis: Analysis; caption: string };

/**
 * What a powder is made of, as weighed, oxide by oxide: a press on an oxide tells what it does in a
 * glaze, and each ± says whether it was given or had to be assumed.
 */
export const AnalysisTable = ({ analysis, caption }: AnalysisTableProps) => {
  const powder = powderOf(analysis);
  const calcined = analysis.basis === "calcined";
  return (
    <>
      <Wide label={caption}>
        <table class="figures">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Oxide</th>
              {calcined ? <th scope="col">Calcined, as reported, %</th> : null}
              <th scope="col">Powder as weighed, %</th>
              <th scope="col">The ± is</th>
            </tr>
          </thead>
          <tbody>
            {powder.listed.map((oxide, place) => (
              <OxideRow oxide={oxide} place={place} powder={powder} analysis={analysis} />
            ))}
            <LossRow powder={powder} calcined={calcined} />
            <RestRow powder={powder} calcined={calcined} />
          </tbody>
        </table>
      </Wide>
      <p>
        The ± holds 95 times in 100, for this powder and this analysis; another powder of the same
        name can lie much further off. Each oxide is taken as measured on its own.
      </p>
    </>
  );
};

type OxideRowProps = { oxide: Oxide; place: number; powder: Powder; analysis: Analysis };

const OxideRow = ({ oxide, place, powder, analysis }: OxideRowProps) => (
  <tr>
    <th scope="row">
      <OxideName oxide={oxide} explain role={oxideRole[oxide]} />
    </th>
    {analysis.basis === "calcined" ? (
      <td>{plainNumber(analysis.oxides[oxide]?.percent ?? 0, 2)}</td>
    ) : null}
    <td>
      <Quantity
        value={powder.percent[place] ?? 0}
        plusMinus={powder.ownPlusMinus[place]}
        digits={2}
      />
    </td>
    <td>{doubtOf(oxide, powder, analysis)}</td>
  </tr>
);

const doubtOf = (oxide: Oxide, powder: Powder, analysis: Analysis): string => {
  if (powder.assumed.includes(oxide)) return "assumed";
  return analysis.oxides[oxide]?.plusMinus ? "given" : "none: exact by its formula";
};

type EndRowProps = { powder: Powder; calcined: boolean };

const LossRow = ({ powder, calcined }: EndRowProps) => (
  <tr>
    <th scope="row">
      <Term means="What leaves as gas when the powder is fired: water, carbon dioxide and the like. Below zero means that it takes up oxygen.">
        Loss on ignition
      </Term>
    </th>
    {calcined ? <td /> : null}
    <td>
      <Quantity value={powder.loss} plusMinus={powder.lossPlusMinus} digits={2} />
    </td>
    <td>{lossDoubt(powder)}</td>
  </tr>
);

const lossDoubt = ({ lossIs, lossPlusMinus, lossPlusMinusAssumed }: Powder): string => {
  switch (lossIs) {
    case "given":
      if (lossPlusMinusAssumed) return "assumed";
      return lossPlusMinus > 0 ? "given" : "none: exact by its formula";
    case "rest":
      return "the loss itself is assumed: what is missing from 100";
    case "none":
      return "the loss itself is assumed: the oxides pass 100";
  }
};

/** What is neither glass nor loss; a powder that is wholly accounted for has no such row. */
const RestRow = ({ powder, calcined }: EndRowProps) =>
  Math.abs(powder.unaccounted) < 0.005 ? null : (
    <tr>
      <th scope="row">{powder.unaccounted > 0 ? "Not accounted for" : "Over 100"}</th>
      {calcined ? <td /> : null}
      <td>
        <Quantity value={Math.abs(powder.unaccounted)} digits={2} />
      </td>
      <td>counted neither as glass nor as loss</td>
    </tr>
  );
