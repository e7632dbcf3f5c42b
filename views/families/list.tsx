import { leftOutWords } from "./words.ts";

type Family = {
  slug: string;
  name: string;
  addedBy: { name: string };
  recipes: readonly { name: string }[];
  leftOut: number;
};

type FamiliesProps = { families: readonly Family[]; next: string | null; mayAdd: boolean };

/** Families of recipes, each with the recipes that are in it. */
export const Families = ({ families, next, mayAdd }: FamiliesProps) => (
  <section id="families">
    <h1>Families</h1>
    <p>
      Recipes that are written up together because they come from one shelf: mix all of them from
      the same few materials.
    </p>
    {mayAdd ? (
      <p class="actions">
        <a class="button" href="/families/new">
          Write recipes up together
        </a>
      </p>
    ) : null}
    {families.length === 0 ? (
      <p>There is no family yet. People of the studio make the first one.</p>
    ) : (
      <ul class="history">
        {families.map(({ slug, name, addedBy, recipes, leftOut }) => (
          <li>
            <a class="kiln-link" href={`/families/${slug}`}>
              {name}
            </a>
            <span class="history-message">
              {recipes.map((recipe) => recipe.name).join(", ")}
              {recipes.length > 0 ? ". " : ""}
              {leftOut > 0 ? `${leftOutWords(leftOut)} ` : ""}
              Written up by {addedBy.name}.
            </span>
          </li>
        ))}
      </ul>
    )}
    {next ? (
      <p>
        <a class="button" href={`/families?after=${encodeURIComponent(next)}`} rel="next">
          More families
        </a>
      </p>
    ) : null}
  </section>
);
