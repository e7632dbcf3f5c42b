import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import { Findings } from "../parts/findings.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { Quantity } from "../parts/quantity.tsx";
import { inOrder } from "../parts/unity.tsx";
import type { ShownPiece } from "./types.ts";

/** The chemistry unfolded, for paper too: unity formula with its ±, ratios, and what was assumed. */
export const PieceChemistry = ({ piece: { chemistry, recipe } }: { piece: ShownPiece }) => {
  const { silicaToAlumina, alkaliShare } = chemistry.ratios;
  return (
    <>
      <h3>What it is made of</h3>
      <UnityTable unity={chemistry.unity} caption={`Unity formula of ${recipe.name}`} />
      <dl class="ratios">
        <div>
          <dt>
            <OxideName oxide="SiO2" /> to <OxideName oxide="Al2O3" />
          </dt>
          <dd>
            <Quantity {...(silicaToAlumina ?? { value: null })} digits={2} />
          </dd>
        </div>
        <div>
          <dt>Alkali share of the fluxes</dt>
          <dd>
            <Quantity {...(alkaliShare ?? { value: null })} digits={2} />
          </dd>
        </div>
        <div>
          <dt>Loss on ignition</dt>
          <dd>
            <Quantity {...chemistry.lossOnIgnition} digits={1} unit="% of the batch" />
          </dd>
        </div>
      </dl>
      <Findings findings={chemistry.findings.filter(({ level }) => level === "note")} />
      <h4>What was assumed</h4>
      <ul class="handout-assumed">
        {chemistry.assumed.map(({ says }) => (
          <li>{says}</li>
        ))}
        <li>
          ± is for these powders by these analyses, 95 times in 100. Another maker's powder of the
          same name can differ by far more: compare your bag with the analyses in this handout.
        </li>
      </ul>
    </>
  );
};

type UnityTableProps = { unity: Chemistry["unity"]; caption: string };

/** A unity formula in moles with its ±; on a narrow page and on paper it goes over several rows. */
export const UnityTable = ({ unity, caption }: UnityTableProps) =>
  unity === null ? (
    <p>No unity formula: there is no flux to divide by.</p>
  ) : (
    <>
      <h4>{caption}, in moles with all its fluxes together set to one</h4>
      <dl class="handout-unity">
        {inOrder(unity).map((oxide) => (
          <div>
            <dt>
              <OxideName oxide={oxide} />
            </dt>
            <dd>
              <Quantity {...(unity[oxide] ?? { value: 0 })} digits={3} />
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
