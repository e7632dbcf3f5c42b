import type { BlendKind } from "../../src/chem/blends.ts";
import { trialMark } from "../../src/chem/tile-marks.ts";
import { kindWords } from "../blends/words.ts";
import { KilnPages } from "../firings/kiln-pages.tsx";
import { When } from "../people/when.tsx";

type ListedTrial = {
  id: string;
  code: string;
  name: string;
  kind: BlendKind;
  about: string;
  points: number;
  by: { name: string };
  at: Date;
};

type TrialsProps = { trials: readonly ListedTrial[]; next: string | null };

/** What the studio tries out, newest first. */
export const Trials = ({ trials, next }: TrialsProps) => (
  <section id="trials">
    <h1>Trials</h1>
    <KilnPages here="/trials" />
    <p>
      Ladders of one addition, line blends, triaxials and grids: worked out before they are weighed,
      and kept with what came of each point. The best one becomes a recipe.
    </p>
    <p class="actions">
      <a class="button quiet" href="/blends">
        Begin a trial
      </a>
    </p>
    {trials.length === 0 ? (
      <p>
        No trial is on record yet. A ladder of one colourant on a known base is a good first one.
      </p>
    ) : (
      <ul class="trial-list">
        {trials.map((trial) => (
          <li>
            <a class="kiln-link" href={`/trials/${trial.id}`}>
              {trial.name}
            </a>
            <p>
              {kindWords[trial.kind].name}, {trial.points} points, tiles {trial.code}1 to{" "}
              {trialMark(trial, trial.points)}. By {trial.by.name}, <When at={trial.at} />.
            </p>
            {trial.about === "" ? null : <p class="about">{trial.about}</p>}
          </li>
        ))}
      </ul>
    )}
    {next ? (
      <p>
        <a class="kiln-way" href={next}>
          Earlier trials
        </a>
      </p>
    ) : null}
  </section>
);
