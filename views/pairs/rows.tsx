import { Standing, Use } from "../parts/standing.tsx";
import { type ShownGlaze, type ShownPair, useOfPair } from "./types.ts";

/** One of the two glazes, at the revision that was laid. */
export const Glaze = ({ glaze }: { glaze: ShownGlaze }) => (
  <a href={`/recipes/${glaze.slug}/revisions/${glaze.number}`}>
    {glaze.name}, revision {glaze.number}
  </a>
);

/** Pairs, each with what it counts as and what it may be used for. */
export const PairRows = ({ pairs }: { pairs: readonly ShownPair[] }) => (
  <ul class="pairs">
    {pairs.map((pair) => (
      <li>
        <p>
          <a class="pair-name" href={`/pairs/${pair.id}`}>
            {pair.over.name} over {pair.under.name}
          </a>{" "}
          <span class="pair-which">
            revision {pair.over.number} over revision {pair.under.number}
          </span>
        </p>
        <p>
          <Standing is={pair.standing.is} /> <Use use={useOfPair(pair)} />
        </p>
      </li>
    ))}
  </ul>
);
