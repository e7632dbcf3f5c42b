import type { Move } from "../../src/chem/moves.ts";
import { FaultSummary, idOfField, TextArea } from "../parts/field.tsx";
import { MoveList } from "../recipes/today.tsx";
import type { AnalysisRow } from "./analyses.tsx";
import { AnalysisTable } from "./analysis-table.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";
import { UsedIn, type Uses } from "./used-in.tsx";

type InUseFormProps = {
  material: { slug: string; name: string };
  /** What would come into use; none where the material has no other analysis. */
  chosen: AnalysisRow | undefined;
  /** What could be chosen instead. */
  others: readonly { id: string; source: string }[];
  /** The recipes whose heads are pinned to another analysis than the one chosen. */
  elsewhere: Uses;
  /** Approved revisions that would need another look, and what would move in them. */
  ended: readonly { slug: string; name: string; number: number; moves: readonly Move[] }[];
  typed: Typed;
  faults: Faults;
};

/** Puts one analysis in use: new revisions pin it, and the page says what keeps another. */
export const InUseForm = ({ material, chosen, others, ...props }: InUseFormProps) => (
  <section id="in-use-form">
    <h1>Put an analysis of {material.name} in use</h1>
    <FaultSummary faults={props.faults} />
    {chosen ? (
      <Chosen material={material} chosen={chosen} {...props} />
    ) : (
      <p>
        There is no other analysis to choose.{" "}
        <a href={`/materials/${material.slug}/analyses/new`}>Add one</a> first.
      </p>
    )}
    {others.length > 0 ? <Others slug={material.slug} others={others} /> : null}
  </section>
);

type ChosenProps = Omit<InUseFormProps, "chosen" | "others"> & { chosen: AnalysisRow };

const Chosen = ({ material, chosen, elsewhere, ended, typed, faults }: ChosenProps) => (
  <>
    <p id={idOfField("analysis")} tabindex={-1}>
      <strong>{chosen.source}</strong> would be in use: new revisions of recipes pin it.
    </p>
    <AnalysisTable analysis={chosen.analysis} caption="What would be in use" />
    <h2>Which approvals it would end</h2>
    {ended.length === 0 ? (
      <p>None: no approved revision with it moves further than an approval bears.</p>
    ) : (
      <ul>
        {ended.map(({ slug, name, number, moves }) => (
          <li>
            <a href={`/recipes/${slug}/revisions/${number}`}>
              {name}, revision {number}
            </a>
            , and its buckets, would need another look:
            <MoveList moves={moves} />
          </li>
        ))}
      </ul>
    )}
    <h2>What keeps its own analysis</h2>
    <p>
      These recipes are pinned to another analysis of it. They keep theirs, and their chemistry with
      it, until somebody publishes a new revision.
    </p>
    <UsedIn uses={elsewhere} nothing="None: no recipe is pinned to another analysis of it." />
    <form method="post" action={`/materials/${material.slug}/analysis-in-use`}>
      <input type="hidden" name="analysis" value={chosen.id} />
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
      <p class="actions">
        <button type="submit">Put it in use</button>
        <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
      </p>
    </form>
  </>
);

const Others = ({ slug, others }: { slug: string; others: InUseFormProps["others"] }) => (
  <>
    <h2>Choose another instead</h2>
    <ul>
      {others.map(({ id, source }) => (
        <li>
          <a href={`/materials/${slug}/analysis-in-use?analysis=${id}`}>{source}</a>
        </li>
      ))}
    </ul>
  </>
);
