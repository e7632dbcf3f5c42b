import type { Conventions } from "../../src/chem/chemistry-types.ts";
import { DustCaution } from "../parts/cautions.tsx";
import { ConventionChoices, type Counted, CountedBy } from "../parts/conventions.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { LivePreview } from "../recipes/live-preview.tsx";
import { Pasting } from "../recipes/pasting.tsx";
import type { PreviewProps } from "../recipes/preview.tsx";
import { Worksheet, type WorksheetLine } from "../recipes/worksheet.tsx";

type ChemistryPageProps = {
  lines: readonly WorksheetLine[];
  pasted: string;
  faults: readonly Fault[];
  preview: PreviewProps;
  materialNames: readonly string[];
  conventions: Conventions;
  counted: Counted;
};

/** Lines in, chemistry out, for anybody; nothing is stored. */
export const ChemistryPage = ({
  lines,
  pasted,
  faults,
  preview,
  materialNames,
  conventions,
  counted,
}: ChemistryPageProps) => (
  <article id="sheet">
    <h1>Work it out</h1>
    <p>
      Lines in, chemistry out. No account is needed and nothing is stored. Use a powder of the
      shelf, or give a formula of your own.
    </p>
    <form
      class="sheet"
      method="post"
      action="/chemistry"
      hx-post="/chemistry"
      hx-target="#sheet"
      hx-select="#sheet"
      hx-swap="outerHTML"
      data-draft="/chemistry"
    >
      <FaultSummary faults={faults} />
      <button type="submit" class="hidden-words" name="change" value="work-out" tabindex={-1}>
        Work out
      </button>
      <div class="sheet-columns">
        <div class="sheet-fields">
          <Worksheet
            lines={lines}
            prefix=""
            faults={faults}
            materialNames={materialNames}
            formulas
          />
          <ConventionChoices conventions={conventions} />
          {counted.by === "settings" ? <CountedBy {...counted} /> : null}
          <Pasting pasted={pasted} fault={faults.find(({ path }) => path === "pasted")?.says} />
        </div>
        <LivePreview {...preview} />
      </div>
    </form>
    <p>
      More that need no account:{" "}
      <a href="/shelf-plan">which few materials cover the most recipes</a>,{" "}
      <a href="/cone-estimate">which cone a firing came to</a>, and{" "}
      <a href="/slurry">what is in a bucket of a certain gravity</a>. And with recipes:{" "}
      <a href="/batch">what to weigh</a> for a batch of any size, and <a href="/blends">blends</a>{" "}
      of one addition or of several recipes.
    </p>
    <DustCaution />
  </article>
);
