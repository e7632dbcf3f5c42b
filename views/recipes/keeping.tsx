import { OpenHandouts, type ShownOpenHandout } from "../handouts/open-links.tsx";
import { Choice, Field } from "../parts/field.tsx";
import { Links, type ShownLink } from "../shared/links.tsx";
import { shownToOptions } from "./form.tsx";
import type { ShownRecipe } from "./types.ts";

type KeepingProps = {
  recipe: ShownRecipe;
  number: number;
  links: readonly ShownLink[];
  handouts: readonly ShownOpenHandout[];
  /** Whether the reader may put a shared bucket of it on record. */
  mayFill: boolean;
};

/** What its owner or a manager can do with a recipe besides revising it. */
export const Keeping = ({ recipe, number, links, handouts, mayFill }: KeepingProps) => {
  const address = `/recipes/${recipe.slug}`;
  return (
    <section class="keeping">
      <h2>Keeping it</h2>
      <form method="post" action={`${address}/visibility`}>
        <Choice
          label="Who may see it"
          name="shownTo"
          value={recipe.shownTo}
          options={shownToOptions}
        />
        <button type="submit">Show it to them</button>
      </form>
      <form
        method="post"
        action={recipe.withdrawn ? `${address}/withdrawal/end` : `${address}/withdrawal`}
      >
        <Field
          label={
            recipe.withdrawn
              ? "Why it can be put forward again"
              : "Why it should not be used any more"
          }
          name="why"
          required
          maxlength={1000}
          autocomplete="off"
        />
        {recipe.withdrawn ? null : (
          <label>
            <input type="checkbox" name="forSafety" /> It can hurt somebody: every recipe that is
            the same glaze needs another look too
          </label>
        )}
        <button type="submit">{recipe.withdrawn ? "Put it forward again" : "Withdraw it"}</button>
      </form>
      {mayFill ? (
        <p class="actions">
          <a class="button quiet" href={`/buckets/new?recipe=${recipe.slug}&revision=${number}`}>
            Add a shared bucket of revision {number}
          </a>
        </p>
      ) : null}
      <Links recipe={recipe} number={number} links={links} />
      <OpenHandouts links={handouts} />
    </section>
  );
};
