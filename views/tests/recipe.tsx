import { LeachCaution } from "../parts/cautions.tsx";
import { KindsExplained } from "./kinds.tsx";
import { TestList } from "./list.tsx";
import type { ShownTest } from "./types.ts";

type RecipeTestsProps = {
  recipe: { slug: string; name: string; head: number };
  tests: readonly ShownTest[];
  mayAdd: boolean;
};

/** All that the head of a recipe was tested for. */
export const RecipeTests = ({ recipe, tests, mayAdd }: RecipeTestsProps) => (
  <article>
    <h1>Tests of {recipe.name}</h1>
    <p>
      Tests of the melt of <a href={`/recipes/${recipe.slug}`}>revision {recipe.head}</a>, whichever
      recipe they were made for.
    </p>
    <TestList
      tests={tests}
      addAt={mayAdd ? `/recipes/${recipe.slug}/tests/new?revision=${recipe.head}` : undefined}
      here={{ slug: recipe.slug, number: recipe.head }}
    />
    <KindsExplained />
    <LeachCaution />
  </article>
);
