import { analysisChangesHref } from "../replacement/types.ts";
import type { AnalysisRow } from "./analyses.tsx";
import { AnalysisTable } from "./analysis-table.tsx";
import { Provenance } from "./provenance.tsx";

type AnalysisPageProps = {
  material: { slug: string; name: string };
  row: AnalysisRow;
  mayManage: boolean;
};

const standing = {
  "in use": "This analysis is in use: new revisions of recipes pin it.",
  earlier: "This analysis was in use before. Revisions that were published with it keep it.",
  waiting: "This analysis waits: recipes take no notice of it until a manager puts it in use.",
} as const;

/** One analysis of a material by itself. */
export const AnalysisPage = ({ material, row, mayManage }: AnalysisPageProps) => (
  <article id="analysis">
    <h1>An analysis of {material.name}</h1>
    <p>{standing[row.is]}</p>
    <AnalysisTable analysis={row.analysis} caption="What is in it" />
    <Provenance {...row} />
    <p class="actions">
      {mayManage && row.is !== "in use" ? (
        <a
          class="button quiet"
          href={`/materials/${material.slug}/analysis-in-use?analysis=${row.id}`}
        >
          Put it in use
        </a>
      ) : null}
      {mayManage ? (
        <a class="button quiet" href={analysisChangesHref(material.slug, row.id)}>
          Recipes restated for it
        </a>
      ) : null}
      <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
    </p>
  </article>
);
