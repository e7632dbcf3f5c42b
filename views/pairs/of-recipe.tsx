import { PairRows } from "./rows.tsx";
import type { ShownPair } from "./types.ts";

type PairsOfRecipeProps = {
  recipe: { slug: string; name: string };
  number: number;
  pairs: readonly ShownPair[];
  mayAdd: boolean;
};

/** The pairs that a recipe is one half of. That approval says nothing of overlaps is said every time. */
export const PairsOfRecipe = ({ recipe, number, pairs, mayAdd }: PairsOfRecipeProps) => (
  <section id="pairs">
    <h2>Laid over or under others</h2>
    <p>
      What {recipe.name} is approved for says nothing of where it overlaps another glaze. Without a
      record of its own a layered pair is decorative only.
    </p>
    {pairs.length === 0 ? (
      <p>No overlap of it was tested: no pair with it is on record.</p>
    ) : (
      <PairRows pairs={pairs} />
    )}
    <p class="actions">
      {mayAdd ? (
        <a class="button quiet" href={`/pairs/new?over=${recipe.slug}@${number}`}>
          Put a pair on record
        </a>
      ) : null}
      <a class="button quiet" href="/pairs">
        All pairs
      </a>
    </p>
  </section>
);
