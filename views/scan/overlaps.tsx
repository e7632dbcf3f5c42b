import { Standing } from "../parts/standing.tsx";
import type { ShownScan } from "./types.ts";

/** Which overlaps were tested: approval of one glaze says nothing of two. */
export const Overlaps = ({ bucket, pairs }: Pick<ShownScan, "bucket" | "pairs">) => (
  <section id="overlaps">
    <h2>Over or under another glaze</h2>
    {pairs.length === 0 ? (
      <p>No overlap was tested: two glazes over each other are decorative only.</p>
    ) : (
      <>
        <ul class="scan-links">
          {pairs.map(({ id, over, under, standing }) => {
            const isOver = over.slug === bucket.recipe.slug && over.number === bucket.number;
            return (
              <li>
                <a href={`/pairs/${id}`}>{isOver ? `Over ${under.name}` : `Under ${over.name}`}</a>{" "}
                <Standing
                  is={standing.is}
                  for={standing.is === "approved" ? (standing.for ?? undefined) : undefined}
                />
              </li>
            );
          })}
        </ul>
        <p>Every other overlap is decorative only, and so is one that is not approved.</p>
      </>
    )}
  </section>
);
