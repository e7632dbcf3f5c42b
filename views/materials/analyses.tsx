import { Day } from "./day.tsx";
import type { ProvenanceProps } from "./provenance.tsx";

export type AnalysisRow = ProvenanceProps & {
  id: string;
  is: "in use" | "earlier" | "waiting";
};

type AnalysesProps = { slug: string; analyses: readonly AnalysisRow[]; mayManage: boolean };

/** The analyses that are not in use: those that wait for a manager, and those of before. */
export const Analyses = ({ slug, analyses, mayManage }: AnalysesProps) => (
  <>
    <Listed
      head="Waiting for a manager"
      slug={slug}
      analyses={analyses.filter(({ is }) => is === "waiting")}
      mayManage={mayManage}
    />
    <Listed
      head="In use before"
      slug={slug}
      analyses={analyses.filter(({ is }) => is === "earlier")}
      mayManage={mayManage}
    />
  </>
);

const Listed = ({ head, slug, analyses, mayManage }: AnalysesProps & { head: string }) =>
  analyses.length === 0 ? null : (
    <>
      <h3>{head}</h3>
      <ul>
        {analyses.map(({ id, source, addedAt, addedBy }) => (
          <li>
            <a href={`/materials/${slug}/analyses/${id}`}>{source}</a>, added <Day on={addedAt} />{" "}
            by {addedBy.name}
            {mayManage ? (
              <>
                {"; "}
                <a href={`/materials/${slug}/analysis-in-use?analysis=${id}`}>put it in use</a>
              </>
            ) : null}
          </li>
        ))}
      </ul>
    </>
  );
