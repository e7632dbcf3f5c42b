import type { ShownRestated } from "./types.ts";

type PublishFormsProps = {
  lines: ShownRestated["lines"];
  recipe: ShownRestated["recipe"];
  member: boolean;
};

/** The way on: the lines in the form of a new recipe, to be looked at before anything is published. */
export const PublishForms = ({ lines, recipe, member }: PublishFormsProps) =>
  member ? (
    <form class="screen-only" method="post" action="/recipes">
      {recipe ? (
        <>
          <input type="hidden" name="revision.cones.low" value={recipe.cones.low} />
          <input type="hidden" name="revision.cones.high" value={recipe.cones.high} />
        </>
      ) : null}
      <input type="hidden" name="revision.message" value={messageOf(recipe)} />
      {lines.map(({ part, material, amount }, row) => (
        <>
          <input type="hidden" name={`revision.lines.${row}.part`} value={part} />
          <input type="hidden" name={`revision.lines.${row}.material`} value={material} />
          <input type="hidden" name={`revision.lines.${row}.amount`} value={amount} />
        </>
      ))}
      <div class="buttons">
        <button type="submit" name="change" value="work-out">
          Take it to a new recipe
        </button>
      </div>
      {recipe ? (
        <p>
          To keep where it comes from on record,{" "}
          <a href={`/recipes/${recipe.slug}/forks/new?revision=${recipe.number}`}>
            fork {recipe.name}
          </a>{" "}
          and revise the fork with these lines.
        </p>
      ) : null}
    </form>
  ) : (
    <p>
      <a href="/session/new">Sign in</a> to take these lines to a recipe of your own.
    </p>
  );

const messageOf = (recipe: ShownRestated["recipe"]): string =>
  recipe
    ? `Restated from ${recipe.name}, revision ${recipe.number}.`
    : "Restated from a unity formula or lines.";
