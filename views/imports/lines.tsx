import { ConeHeat } from "../parts/cone-heat.tsx";
import type { Fault } from "../parts/field.tsx";
import { Wide } from "../parts/wide.tsx";
import type { PlannedRecipe, ShownPlan } from "./types.ts";

/** What becomes of each entry of the file, with its place there. */
export const PlanLines = ({ plan }: { plan: ShownPlan }) => (
  <>
    {plan.recipes.length > 0 ? <Recipes recipes={plan.recipes} /> : null}
    <Materials plan={plan} />
    {plan.refused.length > 0 ? <Refused refused={plan.refused} /> : null}
    {plan.quotes.length > 0 ? (
      <>
        <h2>Quoted notes</h2>
        <p>What was said or found elsewhere. It counts for nothing here and objects to nothing.</p>
        <details>
          <summary>{plan.quotes.length === 1 ? "One note" : `${plan.quotes.length} notes`}</summary>
          <ul>
            {plan.quotes.map(({ recipe, text }) => (
              <li>
                On {recipe}: {text}
              </li>
            ))}
          </ul>
        </details>
      </>
    ) : null}
    {plan.leftBehind.length > 0 ? (
      <>
        <h2>What does not come</h2>
        <ul>
          {plan.leftBehind.map((says) => (
            <li>{says}</li>
          ))}
        </ul>
      </>
    ) : null}
  </>
);

const Recipes = ({ recipes }: { recipes: readonly PlannedRecipe[] }) => {
  const cones = recipes.flatMap(({ recipe }) =>
    recipe ? [recipe.cones.low, recipe.cones.high] : [],
  );
  return (
    <>
      <h2>Recipes</h2>
      <Wide label="Recipes of the file">
        <table>
          <thead>
            <tr>
              <th scope="col">In the file</th>
              <th scope="col">Cone</th>
              <th scope="col">Here</th>
            </tr>
          </thead>
          <tbody>
            {recipes.map((recipe) => (
              <tr>
                <th scope="row">
                  {recipe.name} <small>({recipe.place})</small>
                </th>
                <td>{recipe.recipe ? coneWords(recipe.recipe.cones) : ""}</td>
                <td>
                  <Becomes recipe={recipe} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <p>
        <ConeHeat cones={cones} />
      </p>
    </>
  );
};

const coneWords = ({ low, high }: { low: string; high: string }): string =>
  low === high ? low : `${low} to ${high}`;

const Becomes = ({ recipe }: { recipe: PlannedRecipe }) => {
  const { is, as, name, here, says, faults, asks } = recipe;
  switch (is) {
    case "draft":
      return (
        <>
          A draft of yours, “{as}”{as === name ? "." : ", since its name is taken here."}
          {asks.map((ask) => (
            <strong class="import-caution"> {ask}</strong>
          ))}
        </>
      );
    case "here already":
      return (
        <>
          Here already as <a href={`/recipes/${here?.slug}`}>{here?.name}</a>: left out.
        </>
      );
    case "refused":
      return (
        <>
          Refused. <Faults faults={faults} />
        </>
      );
    default:
      return <>{is === "waits" ? says : `Left out. ${says}`}</>;
  }
};

const Faults = ({ faults }: { faults: readonly Fault[] }) => (
  <>
    {faults.map(({ path, says }) => (
      <span class="import-fault">
        {path}: {says}{" "}
      </span>
    ))}
  </>
);

const Materials = ({ plan: { materials, analyses } }: { plan: ShownPlan }) => {
  const fresh = materials.filter(({ is }) => is === "new");
  return (
    <>
      {fresh.length > 0 ? (
        <>
          <h2>New materials</h2>
          <ul>
            {fresh.map(({ name, as }) => (
              <li>{as === name ? as : `${as} (“${name}” is taken here)`}</li>
            ))}
          </ul>
        </>
      ) : null}
      {analyses.length > 0 ? (
        <>
          <h2>Analyses</h2>
          <ul>
            {analyses.map(({ place, material, is, given }) => (
              <li>
                {material}, {given.source}
                {given.measuredOn === null ? "" : `, ${given.measuredOn}`} ({place}):{" "}
                {analysisWords(is)}
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </>
  );
};

const analysisWords = (is: string): string =>
  ({
    "in use": "in use at once, since the material is new.",
    "waits for a manager": "on record, not in use until a manager puts it there.",
    "here already": "here already: left out.",
    "left out": "left out with its material.",
  })[is] ?? "waits for its material to be matched.";

const Refused = ({ refused }: { refused: ShownPlan["refused"] }) => (
  <>
    <h2>What cannot be taken as it stands</h2>
    <ul>
      {refused.map(({ noun, name, place, faults }) => (
        <li>
          The {noun} {name === "" ? `at ${place}` : `“${name}” (${place})`}:{" "}
          <Faults faults={faults} />
        </li>
      ))}
    </ul>
  </>
);
