import { PowderName } from "../parts/powder-name.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import type { Mix, Named, Wanted } from "./types.ts";

/** Restated recipes, each with what to weigh and how far it is off. */
export const Mixes = ({ mixes }: { mixes: readonly Mix[] }) => (
  <>
    <p>
      Parts of a base of 100. A miss is counted as a share of what is wanted of an oxide, or of 0.1
      mole where less is wanted. None of these is the same glaze until a tile says so.
    </p>
    <MixList mixes={mixes} />
  </>
);

const MixList = ({ mixes }: { mixes: readonly Mix[] }) => (
  <ul class="plan-mixes">
    {mixes.map((mix) => (
      <li>
        <h4>
          <RecipeLink {...mix} />
        </h4>
        <p class="note-by">Largest miss {plainNumber(mix.worst * 100, 1)} %</p>
        <table class="lines">
          <caption class="hidden-words">{mix.name}, restated, at a base of 100</caption>
          <tbody>
            {mix.lines.map(({ name, amount }) => (
              <tr>
                <th scope="row">
                  <PowderName name={name} />
                </th>
                <td class="number">{amount}</td>
              </tr>
            ))}
          </tbody>
          {mix.additions.length === 0 ? null : (
            <tbody>
              <tr>
                <th scope="rowgroup" colspan={2} class="group">
                  Additions, as the recipe has them
                </th>
              </tr>
              {mix.additions.map(({ name, amount }) => (
                <tr>
                  <th scope="row">
                    <PowderName name={name} />
                  </th>
                  <td class="number">{amount}</td>
                </tr>
              ))}
            </tbody>
          )}
        </table>
      </li>
    ))}
  </ul>
);

/** A recipe by its name; one that came with the request has no page. */
export const RecipeLink = ({ recipe, name }: Named) =>
  recipe === name ? (
    <span>{name}</span>
  ) : (
    <a href={`/recipes/${encodeURIComponent(recipe)}`}>{name}</a>
  );

/** Recipes that are not reached, each with why. */
export const Missed = ({ missed }: { missed: readonly (Named & { because: string })[] }) => (
  <dl class="plan-missed">
    {missed.map(({ because, ...named }) => (
      <div>
        <dt>
          <RecipeLink {...named} />
        </dt>
        <dd>{because}</dd>
      </div>
    ))}
  </dl>
);

/** Additions that the shelf does not hold. */
export const StillToBeHad = ({ wanted }: { wanted: readonly Wanted[] }) =>
  wanted.length === 0 ? null : (
    <>
      <h3>Still to be had</h3>
      <p>Additions of these recipes. They are left out of the comparison and of the count.</p>
      <ul>
        {wanted.map(({ name, recipes }) => (
          <li>
            {name}, for {recipes.length === 1 ? "one of them" : `${recipes.length} of them`}
          </li>
        ))}
      </ul>
    </>
  );
