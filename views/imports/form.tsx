import { type Fault, FaultSummary, faultAt } from "../parts/field.tsx";

/** The file itself; a form cannot show again which one was chosen. */
export const FileField = ({ fault, hint }: { fault?: string | undefined; hint: string }) => (
  <div class={fault ? "field field-faulty" : "field"}>
    <label for="field-file">File</label>
    <span class="field-hint" id="field-file-hint">
      {hint}
    </span>
    {fault ? (
      <span class="field-fault" id="field-file-fault">
        <span class="hidden-words">To put right: </span>
        {fault}
      </span>
    ) : null}
    <input
      id="field-file"
      name="file"
      type="file"
      accept=".json,.csv,.tsv,.txt,.zip,application/json,text/csv,application/zip"
      aria-describedby={fault ? "field-file-fault field-file-hint" : "field-file-hint"}
      aria-invalid={fault ? "true" : undefined}
    />
  </div>
);

/** The first step of an import: a file, of which nothing is taken in yet. */
export const ImportForm = ({ faults }: { faults: readonly Fault[] }) => (
  <section id="import">
    <h1>Take in recipes or analyses</h1>
    <p>
      From a file: you are shown first what it would bring, line by line, and which powder each name
      means here. Nothing is written until you say so. What comes in is a draft of yours, shown to
      the studio; reviews, tests and tiles of another studio come as quoted notes and count for
      nothing here.
    </p>
    <FaultSummary faults={faults} />
    <form method="post" action="/import" enctype="multipart/form-data">
      <FileField
        fault={faultAt(faults, "file")}
        hint="JSON or CSV up to 8 MB, or the export of another studio (a zip up to 100 MB)."
      />
      <p class="actions">
        <button type="submit" name="dryRun" value="true">
          See what it would bring
        </button>
        <a href="/imports">Earlier imports</a>
      </p>
    </form>
    <h2>What a file looks like</h2>
    <p>
      A table of recipes has a row for each line. What is said of the recipe stands on its first:
    </p>
    <section class="wide" aria-label="A table of recipes" tabindex={0}>
      <pre>{recipesExample}</pre>
    </section>
    <p>A table of analyses has a row for each, in percent of the powder as it is weighed:</p>
    <section class="wide" aria-label="A table of analyses" tabindex={0}>
      <pre>{analysesExample}</pre>
    </section>
    <p>
      Commas, semicolons or tabs part the columns; decimals have a point or a comma. Amounts are
      parts by weight, additions beside a base that totals 100. Cone 04 is not cone 4: see that your
      spreadsheet keeps the zero.
    </p>
  </section>
);

const recipesExample = `recipe,part,material,amount,cone,atmosphere,surface
Slack Water,base,Potash feldspar,40,6,oxidation,gloss
Slack Water,base,Whiting,20,,,
Slack Water,base,Quartz,25,,,
Slack Water,base,Kaolin,15,,,
Slack Water,addition,Red iron oxide,2,,,`;

const analysesExample = `material,source,measuredOn,SiO2,Al2O3,± Al2O3,lossOnIgnition
Saltmarsh clay,Laboratory sheet 12,2026-03-01,61.2,20.4,0.3,9.1`;
