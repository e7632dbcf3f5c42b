import { Neighbours } from "./neighbours.tsx";
import type { ShownNeighbours } from "./types.ts";

type NearestPageProps = {
  recipe: { slug: string; name: string };
  number: number;
  /** Null where it has no flux, and so no formula. */
  of: ShownNeighbours["of"] | null;
  items: ShownNeighbours["items"];
};

/** The recipes that lie nearest to one in chemistry. */
export const NearestPage = ({ recipe: { slug, name }, number, of, items }: NearestPageProps) => (
  <article>
    <h1>Nearest in chemistry to {name}</h1>
    <p>
      To{" "}
      <a href={`/recipes/${slug}/revisions/${number}`}>
        {name}, revision {number}
      </a>
      , of the newest revisions of all recipes that you may see and that were not taken back.
    </p>
    {of ? (
      <Neighbours neighbours={{ of, items }} from={`${slug}@${number}`} />
    ) : (
      <p>There is no flux in it, so it has no unity formula to hold others against.</p>
    )}
    <p class="actions">
      <a class="button quiet" href={`/recipes/${slug}/moves?revision=${number}`}>
        Move an oxide of {name}
      </a>
    </p>
  </article>
);
