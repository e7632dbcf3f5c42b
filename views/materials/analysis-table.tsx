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
              <th scope="col">Powder, %</th>
              <th scope="col">Its ± is</th>
              {calcined ? <th scope="col">Calcined, %</th> : null}
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
        The percents are of the powder as weighed. {lossSays(powder)} {restSays(powder)} The ± holds
        95 times in 100, for this powder and this analysis; another powder of the same name can lie
        much further off. Where none was given, 3 % of the figure is assumed, at least 0.1; each
        oxide is taken as measured on its own.
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
    <td>
      <Quantity
        value={powder.percent[place] ?? 0}
        plusMinus={powder.ownPlusMinus[place]}
        digits={2}
      />
    </td>
    <td>{doubtOf(oxide, powder, analysis)}</td>
    {analysis.basis === "calcined" ? (
      <td>{plainNumber(analysis.oxides[oxide]?.percent ?? 0, 2)}</td>
    ) : null}
  </tr>
);

const doubtOf = (oxide: Oxide, powder: Powder, analysis: Analysis): string => {
  if (powder.assumed.includes(oxide)) return "assumed";
  return analysis.oxides[oxide]?.plusMinus ? "given" : "exact";
};

type EndRowProps = { powder: Powder; calcined: boolean };

const LossRow = ({ powder, calcined }: EndRowProps) => (
  <tr>
    <th scope="row">
      <Term
        guide="base-and-additions#loss"
        means="Loss on ignition: what leaves as gas when the powder is fired: water, carbon dioxide and the like. Below zero means that it takes up oxygen."
      >
        Loss (LOI)
      </Term>
    </th>
    <td>
      <Quantity value={powder.loss} plusMinus={powder.lossPlusMinus} digits={2} />
    </td>
    <td>{lossDoubt(powder)}</td>
    {calcined ? <td /> : null}
  </tr>
);

const lossDoubt = ({ lossIs, lossPlusMinus, lossPlusMinusAssumed }: Powder): string => {
  switch (lossIs) {
    case "given":
      if (lossPlusMinusAssumed) return "assumed";
      return lossPlusMinus > 0 ? "given" : "exact";
    case "rest":
    case "none":
      return "not given";
  }
};

const lossSays = ({ lossIs }: Powder): string => {
  switch (lossIs) {
    case "given":
      return "";
    case "rest":
      return "No loss on ignition was given: it is assumed to be what is missing from 100.";
    case "none":
      return "No loss on ignition was given, and the oxides pass 100: it is assumed to be 0.";
  }
};

const restSays = ({ unaccounted }: Powder): string =>
  unaccounted >= 0.005
    ? "The rest is what the analysis does not account for: neither glass nor loss."
    : "";

/** What is neither glass nor loss; a powder that is wholly accounted for has no such row. */
const RestRow = ({ powder, calcined }: EndRowProps) =>
  Math.abs(powder.unaccounted) < 0.005 ? null : (
    <tr>
      <th scope="row">{powder.unaccounted > 0 ? "Rest" : "Over 100"}</th>
      <td>
        <Quantity value={Math.abs(powder.unaccounted)} digits={2} />
      </td>
      <td />
      {calcined ? <td /> : null}
    </tr>
  );
