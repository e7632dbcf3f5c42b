import { type Chemistry, engine } from "../../src/chem/chemistry.ts";
import type { Cone } from "../../src/chem/cones.ts";
import { ContributionBars } from "../charts/contribution-bars.tsx";
import { SilicaAlumina } from "../charts/silica-alumina.tsx";
import { nameOfLine } from "../numbers/words.ts";
import { type AskAt, Asked } from "./asked.tsx";
import { ConventionWords } from "./conventions.tsx";
import { ExpansionTable } from "./expansion.tsx";
import type { ShownFits } from "./expansion-beside.tsx";
import { Findings } from "./findings.tsx";
import { LimitTables } from "./limits.tsx";
import { OxideName } from "./oxide.tsx";
import { PercentTable } from "./percent-table.tsx";
import { Quantity } from "./quantity.tsx";
import { Term } from "./term.tsx";
import { inOrder, UnityFormula } from "./unity.tsx";

type ChemistryTablesProps = {
  chemistry: Chemistry;
  lineNames: readonly string[];
  of?: string | undefined;
  /** The cone that the glaze is meant for, where one is said. */
  cone?: Cone | undefined;
  /** Where a number leads that is asked where it comes from. */
  ask?: AskAt | undefined;
  /** What is recorded of fit, for a glaze of the library. */
  fit?: ShownFits | undefined;
};

/**
 * What a recipe is made of, chemically: what was found, the unity formula, ratios, the make-up in
 * percent, which line brings what, and what had to be assumed.
 *
 * @param lineNames the recipe's lines in the order in which the chemistry was asked for them.
 * @param of whose chemistry it is, where a page shows more than one.
 */
export const ChemistryTables = ({
  chemistry,
  lineNames,
  of,
  cone,
  ask,
  fit,
}: ChemistryTablesProps) => (
  <div class="chemistry">
    <Findings findings={chemistry.findings} />
    <UnityFormula unity={chemistry.unity} of={of} ask={ask} />
    {chemistry.engine === engine ? <ConventionWords conventions={chemistry.conventions} /> : null}
    <div class="chemistry-figures">
      <Ratios chemistry={chemistry} ask={ask} />
      <PercentTable
        weight={chemistry.weightPercent}
        mole={chemistry.molePercent}
        of={of}
        ask={ask}
      />
    </div>
    {chemistry.explain ? (
      <Contributions explain={chemistry.explain} lineNames={lineNames} of={of} />
    ) : null}
    {chemistry.engine === engine ? (
      <Deeper chemistry={chemistry} of={of} cone={cone} ask={ask} fit={fit} />
    ) : null}
    <Assumed assumed={chemistry.assumed} engine={chemistry.engine} />
  </div>
);

type DeeperProps = Pick<ChemistryTablesProps, "chemistry" | "of" | "cone" | "ask" | "fit">;

/** What models and maps in print make of it; what an earlier engine stored has nothing of this yet. */
const Deeper = ({ chemistry, of, cone, ask, fit }: DeeperProps) => (
  <>
    <SilicaAlumina chemistry={chemistry} cone={cone} />
    {cone ? <LimitTables chemistry={chemistry} cone={cone} /> : null}
    <ExpansionTable expansion={chemistry.expansion} of={of} ask={ask} fit={fit} />
  </>
);

const Ratios = ({ chemistry, ask }: Pick<ChemistryTablesProps, "chemistry" | "ask">) => {
  const { silicaToAlumina, alkaliShare, silicaToR2O3, glassFormersToAlumina } = chemistry.ratios;
  return (
    <div>
      <h3>Loss and ratios</h3>
      <dl class="ratios">
        <div>
          <dt>
            <Term guide="base-and-additions#loss" means={lossMeans}>
              Loss on ignition
            </Term>
          </dt>
          <dd>
            <Asked at={ask} name="loss">
              <Quantity {...chemistry.lossOnIgnition} digits={1} unit="% of the batch" />
            </Asked>
          </dd>
        </div>
        {chemistry.unaccounted ? (
          <div>
            <dt>Not accounted for</dt>
            <dd>
              <Asked at={ask} name="unaccounted">
                <Quantity {...chemistry.unaccounted} digits={1} unit="% of the batch" />
              </Asked>
            </dd>
          </div>
        ) : null}
        <div>
          <dt>
            <OxideName oxide="SiO2" /> to <OxideName oxide="Al2O3" />, in moles
          </dt>
          <dd>
            <Asked at={silicaToAlumina ? ask : undefined} name="silica-to-alumina">
              <Quantity {...(silicaToAlumina ?? noAlumina)} digits={2} />
            </Asked>
          </dd>
        </div>
        {silicaToR2O3 === undefined ? null : (
          <div>
            <dt>
              <OxideName oxide="SiO2" /> to <OxideName oxide="Al2O3" /> and{" "}
              <OxideName oxide="B2O3" />
            </dt>
            <dd>
              <Asked at={silicaToR2O3 ? ask : undefined} name="silica-to-r2o3">
                <Quantity {...(silicaToR2O3 ?? noAlumina)} digits={2} />
              </Asked>
            </dd>
          </div>
        )}
        {glassFormersToAlumina === undefined ? null : (
          <div>
            <dt>
              <OxideName oxide="SiO2" /> and <OxideName oxide="B2O3" /> to{" "}
              <OxideName oxide="Al2O3" />
            </dt>
            <dd>
              <Asked at={glassFormersToAlumina ? ask : undefined} name="glass-formers-to-alumina">
                <Quantity {...(glassFormersToAlumina ?? noAlumina)} digits={2} />
              </Asked>
            </dd>
          </div>
        )}
        <div>
          <dt>
            <Term guide="unity-formula#ratios" means={alkaliMeans}>
              Alkali share
            </Term>
          </dt>
          <dd>
            <Asked at={alkaliShare ? ask : undefined} name="alkali-share">
              <Quantity {...(alkaliShare ?? noFlux)} digits={2} />
            </Asked>
          </dd>
        </div>
      </dl>
    </div>
  );
};

const lossMeans =
  "What leaves as gas when the batch is fired: water, carbon dioxide and the like. Below zero means that oxygen was taken up.";
const alkaliMeans =
  "How much of the flux is alkali: lithia, soda and potash, over all the fluxes, counted in moles. 0 is none, 1 is all.";
const noAlumina = { value: null, reason: "no alumina to divide by" } as const;
const noFlux = { value: null, reason: "no flux to divide by" } as const;

type Explain = NonNullable<Chemistry["explain"]>;

type ContributionsProps = {
  explain: Explain;
  lineNames: readonly string[];
  of: string | undefined;
};

const Contributions = ({ explain, lineNames, of }: ContributionsProps) => {
  const oxides = inOrder(explain).map((oxide) => ({
    oxide,
    shares: (explain[oxide] ?? []).map(({ line, share }) => ({
      line: nameOfLine(lineNames, line),
      share,
    })),
  }));
  return oxides.length > 0 ? <ContributionBars oxides={oxides} of={of} /> : null;
};

type AssumedProps = Pick<Chemistry, "assumed" | "engine">;

const Assumed = ({ assumed, engine }: AssumedProps) => (
  <details class="assumed">
    <summary>What was assumed ({assumed.length})</summary>
    <ul>
      {assumed.map(({ says }) => (
        <li>{says}</li>
      ))}
    </ul>
    <p>
      ± is for these powders and their analyses, 95 times in 100. Another maker's powder of the same
      name can differ by far more. Worked out by chemistry engine {engine}.
    </p>
  </details>
);
