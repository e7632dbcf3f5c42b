import { Choice, FaultSummary, TextArea } from "../parts/field.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";
import { UsedIn, type Uses } from "./used-in.tsx";

type InUseFormProps = {
  material: { slug: string; name: string };
  analyses: readonly { id: string; source: string; is: "in use" | "earlier" | "waiting" }[];
  /** The recipes whose heads are pinned to another analysis than the one chosen. */
  elsewhere: Uses | null;
  typed: Typed;
  faults: Faults;
};

/** Which analysis new revisions are to pin, with what that leaves as it is. */
export const InUseForm = ({ material, analyses, elsewhere, typed, faults }: InUseFormProps) => {
  const others = analyses.filter(({ is }) => is !== "in use");
  return (
    <section id="in-use-form">
      <h1>Put an analysis of {material.name} in use</h1>
      <FaultSummary faults={faults} />
      {others.length === 0 ? (
        <p>
          There is no other analysis to choose.{" "}
          <a href={`/materials/${material.slug}/analyses/new`}>Add one</a> first.
        </p>
      ) : (
        <form method="post" action={`/materials/${material.slug}/analysis-in-use`}>
          <Choice
            label="Analysis"
            name="analysis"
            value={typed("analysis")}
            fault={faultAt(faults, "analysis")}
            options={others.map(({ id, source, is }) => ({
              value: id,
              label: `${source} (${is === "earlier" ? "in use before" : "waiting"})`,
            }))}
          />
          <TextArea
            label="Why"
            name="why"
            value={typed("why")}
            fault={faultAt(faults, "why")}
            hint="A new delivery, a slip in the old sheet, a laboratory's report."
            required
            rows={3}
            maxlength={1000}
          />
          {elsewhere ? <Elsewhere uses={elsewhere} /> : null}
          <p class="actions">
            <button type="submit">Put it in use</button>
            <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
          </p>
        </form>
      )}
    </section>
  );
};

const Elsewhere = ({ uses }: { uses: Uses }) => (
  <>
    <h2>What keeps its own analysis</h2>
    <p>
      These recipes are pinned to another analysis of it. They keep theirs, and their chemistry with
      it, until somebody publishes a new revision.
    </p>
    <UsedIn uses={uses} nothing="None: no recipe is pinned to another analysis of it." />
  </>
);
