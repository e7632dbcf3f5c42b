import { recipesInWords } from "./form-words.ts";
import { Missed, Mixes, RecipeLink, StillToBeHad } from "./mixes.tsx";
import type { Named, Reach } from "./types.ts";

/** How far a shelf goes: as it is written, restated, with one more powder, and beyond. */
export const ReachAnswer = ({ reach }: { reach: Reach }) => {
  const { asTheyAre, restated, withOneMore, beyond, opens } = reach;
  const all = asTheyAre.length + restated.length + withOneMore.length + beyond.length;
  const [most, ...others] = opens;
  return (
    <section id="reach" class="plan-answer" role="status">
      <h2>
        Your shelf makes {asTheyAre.length + restated.length} of {recipesInWords(all)}
      </h2>
      {most ? (
        <p class="answer">
          {most.name} would open the most: {recipesInWords(most.recipes.length)} more.
        </p>
      ) : null}
      {reach.stopped ? <p>The time was up before every recipe was looked at.</p> : null}
      <h3>As they are</h3>
      {asTheyAre.length === 0 ? (
        <p>None: no base is all on this shelf.</p>
      ) : (
        <Names of={asTheyAre} />
      )}
      <h3>Restated</h3>
      {restated.length === 0 ? <p>None beside those.</p> : <Mixes mixes={restated} />}
      <StillToBeHad wanted={reach.stillToBeHad} />
      <h3>With one more powder</h3>
      {most ? (
        <dl class="plan-missed">
          {[most, ...others].map(({ name, recipes }) => (
            <div>
              <dt>{name}</dt>
              <dd>
                <Names of={recipes} />
              </dd>
            </div>
          ))}
        </dl>
      ) : (
        <p>No single powder opens another recipe.</p>
      )}
      {beyond.length === 0 ? null : (
        <>
          <h3>Beyond it</h3>
          <Missed missed={beyond} />
        </>
      )}
    </section>
  );
};

const Names = ({ of }: { of: readonly Named[] }) => (
  <ul class="plan-shelf">
    {of.map((named) => (
      <li>
        <RecipeLink {...named} />
      </li>
    ))}
  </ul>
);
