import { Wide } from "../parts/wide.tsx";
import { RecipeLink } from "./mixes.tsx";
import type { Cost } from "./types.ts";

/** What a pack of each comes to, and how far that goes. */
export const CostOfShelf = ({ cost }: { cost: Cost }) => (
  <>
    <h3>What the shelf costs to buy</h3>
    <p>
      One pack of each, as the newest lots were bought
      {cost.known.length > 0 ? `: ${cost.known.map(money).join(" and ")}` : ""}.
      {cost.without.length > 0
        ? ` No lot is on record of ${cost.without.join(", ")}, so ${cost.without.length === 1 ? "it is" : "they are"} not in the sum.`
        : ""}
    </p>
    <table class="lines">
      <caption class="hidden-words">Packs of the newest lots</caption>
      <tbody>
        {cost.packs.map(({ name, packGrams, packPrice, currency }) => (
          <tr>
            <th scope="row">{name}</th>
            <td class="number">{packGrams ? kilograms(packGrams) : "not known"}</td>
            <td class="number">{packPrice ? `${packPrice} ${currency}` : "not known"}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {cost.recipes.length === 0 ? null : <HowFar cost={cost} />}
  </>
);

const HowFar = ({ cost }: { cost: Cost }) => (
  <>
    <p>{roundsWords(cost)} Additions are not counted.</p>
    <Wide label="How far one pack of each goes">
      <table class="lines">
        <caption>How far one pack of each goes, for one recipe alone</caption>
        <thead>
          <tr>
            <th scope="col">Recipe</th>
            <th scope="col" class="number">
              Tests of 100 g
            </th>
            <th scope="col" class="number">
              Buckets of 5 kg
            </th>
          </tr>
        </thead>
        <tbody>
          {cost.recipes.map(({ tests, buckets, ...named }) => (
            <tr>
              <th scope="row">
                <RecipeLink {...named} />
              </th>
              <td class="number">{tests ?? "not known"}</td>
              <td class="number">{buckets ?? "not known"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  </>
);

function roundsWords({ testsOfEach, bucketsOfEach }: Cost): string {
  if (testsOfEach === null || bucketsOfEach === null)
    return "How far it goes for all of them cannot be said: a pack is not known.";
  const tests = `a 100 g test of each of them ${times(testsOfEach)}`;
  const buckets =
    bucketsOfEach === 0
      ? "but not a 5 kg bucket of every one"
      : `or a 5 kg bucket of each of them ${times(bucketsOfEach)}`;
  return `It makes ${tests}, ${buckets}.`;
}

const times = (count: number): string =>
  count === 1 ? "once" : count === 2 ? "twice" : `${count} times`;

const money = ({ amount, currency }: { amount: string; currency: string }) =>
  `${amount} ${currency}`;

const kilograms = (grams: string): string =>
  Number(grams) >= 1000 ? `${Number(grams) / 1000} kg` : `${grams} g`;
