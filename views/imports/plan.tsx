import { type Fault, FaultSummary, faultAt } from "../parts/field.tsx";
import { DayOf } from "../tiles/day.tsx";
import { FileField } from "./form.tsx";
import { PlanLines } from "./lines.tsx";
import { NamesToMatch } from "./names.tsx";
import type { Brings, NameToMatch, ShownPlan } from "./types.ts";
import { bringsWords } from "./words.ts";

type ImportPlanProps = {
  file: { name: string; digest: string; kind: string; kept: string | null };
  names: readonly NameToMatch[];
  plan: ShownPlan;
  brings: Brings;
  before: readonly { id: string; at: Date; takenBack: boolean }[];
  again: boolean;
  leaveOutRefused: boolean;
  /** Whether anything in the file is refused. */
  refusedMany: boolean;
  faults: readonly Fault[];
};

/** What a file would bring, line by line, with the names to match before it is taken in. */
export const ImportPlanPage = (props: ImportPlanProps) => {
  const { file, names, plan, brings, before, faults } = props;
  return (
    <section id="import">
      <h1>What this file would bring</h1>
      <p>
        {file.name || "The file"} would bring {bringsWords(brings)}. Nothing is written yet.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action="/import" enctype="multipart/form-data">
        <input type="hidden" name="digest" value={file.digest} />
        <input type="hidden" name="fileName" value={file.name} />
        {file.kept === null ? (
          <FileField
            fault={faultAt(faults, "file")}
            hint="It is too large to be kept in this page: choose the same file once more. What you chose below stays."
          />
        ) : (
          <input type="hidden" name="kept" value={file.kept} />
        )}
        {names.length > 0 ? (
          <>
            <h2>Which powder is it here?</h2>
            <p>
              A name alone does not tell a powder. Look at the analysis and at what to beware of,
              then choose. Nothing counts by its name alone.
            </p>
            <NamesToMatch names={names} faults={faults} />
            <p class="actions">
              <button type="submit" name="dryRun" value="true" class="quiet">
                Show again with these
              </button>
            </p>
          </>
        ) : null}
        <PlanLines plan={plan} />
        <Confirming {...props} />
        <p class="actions">
          <button type="submit" name="dryRun" value="false">
            Take it in
          </button>
          <a href="/imports/new">Choose another file</a>
        </p>
      </form>
      {before.length > 0 ? null : (
        <p>All of it is taken in at once or nothing; as a whole it can be taken back later.</p>
      )}
    </section>
  );
};

const Confirming = ({ before, again, leaveOutRefused, refusedMany }: ImportPlanProps) => (
  <>
    {refusedMany ? (
      <label class="import-tick">
        <input type="checkbox" name="leaveOutRefused" value="true" checked={leaveOutRefused} />
        Take in the rest without what is refused
      </label>
    ) : null}
    {before.length > 0 ? (
      <>
        <p>
          This very file was taken in before:{" "}
          {before.map(({ id, at, takenBack }, place) => (
            <>
              {place > 0 ? ", " : ""}
              <a href={`/imports/${id}`}>
                <DayOf at={at} />
              </a>
              {takenBack ? " (taken back)" : ""}
            </>
          ))}
          .
        </p>
        <label class="import-tick">
          <input id="field-again" type="checkbox" name="again" value="true" checked={again} />
          Take it in again all the same
        </label>
      </>
    ) : null}
  </>
);
