import { trialMark } from "../../src/chem/tile-marks.ts";
import { firstThatMoves, shownValueOf, shownValues, turnsOf } from "../../src/chem/trial-values.ts";
import { PointTable } from "../blends/points.tsx";
import { stopsWords } from "../blends/screen.tsx";
import { shareWords } from "../blends/words.ts";
import { BlendDrawing } from "../charts/blend-drawing.tsx";
import { KilnPages } from "../firings/kiln-pages.tsx";
import { DustCaution } from "../parts/cautions.tsx";
import { Choice } from "../parts/field.tsx";
import { TrialFacts } from "./facts.tsx";
import { CameOf } from "./results.tsx";
import { type ShownTrial, trialHref } from "./types.ts";

type TrialPageProps = {
  trial: ShownTrial;
  /** The value that the points are looked at by, as it stands in the address. */
  show: string | undefined;
};

/** One trial: what it is, what the screen thinks of it, its points drawn and told, and what came of them. */
export const TrialPage = ({ trial, show }: TrialPageProps) => {
  const chemistries = trial.points.map(({ chemistry }) => chemistry);
  const values = shownValues(chemistries);
  const shown = values.find(({ name }) => name === show) ?? firstThatMoves(values, chemistries);
  if (!shown) return null;
  const fired = trial.points.filter(({ results }) => results.length > 0);
  return (
    <article id="trial">
      <h1>{trial.name}</h1>
      <KilnPages here="/trials" />
      <TrialFacts trial={trial} />
      {trial.about === "" ? null : <p class="about">{trial.about}</p>}
      <p class="actions">
        <a class="button" href={`${trialHref(trial)}/sheet`}>
          The sheet to weigh from
        </a>
      </p>
      <h2>What the screen says</h2>
      <p>
        <strong>{stopsWords(trial.points.map(({ chemistry }) => chemistry))}</strong> It reads the
        chemistry alone and has seen no tile.
      </p>
      {trial.kind === "ladder" ? <Turns trial={trial} /> : null}
      <h2 id="points">The points</h2>
      <form class="narrowing screen-only" method="get" action={`${trialHref(trial)}#points`}>
        <Choice
          label="Look at them by"
          name="show"
          value={shown.name}
          options={values.map(({ name, says }) => ({ value: name, label: says }))}
        />
        <button type="submit">Look</button>
      </form>
      <BlendDrawing
        kind={trial.kind}
        shown={shown}
        markOf={(n) => trialMark(trial, n)}
        points={trial.points.map(({ n, at, chemistry }) => ({
          n,
          at,
          value: shownValueOf(chemistry, shown.name)?.value ?? null,
          stops: chemistry.findings.some(({ level }) => level === "stop"),
        }))}
      />
      <PointTable
        kind={trial.kind}
        value={shown}
        points={trial.points.map(({ named, ...point }) => ({ ...point, lines: named }))}
        hrefOf={(n) => trialHref(trial, n)}
        markOf={(n) => trialMark(trial, n)}
      />
      <h2>What came of them</h2>
      {fired.length === 0 ? (
        <p>
          Nothing yet. Fire the tiles, then open a point from the table and put down what you see.
        </p>
      ) : (
        fired.map((point) => (
          <section class="trial-came">
            <h3>
              <a href={trialHref(trial, point.n)}>
                {trialMark(trial, point.n)}, {shareWords(trial.kind, point.at)}
              </a>
            </h3>
            <CameOf results={point.results} mark={trialMark(trial, point.n)} />
          </section>
        ))
      )}
      <Became trial={trial} />
      <DustCaution />
    </article>
  );
};

const Turns = ({ trial }: { trial: ShownTrial }) => {
  const turns = turnsOf(
    trial.points.map(({ n, chemistry }) => ({ n, findings: chemistry.findings })),
  );
  if (turns.length === 0) return <p>Its opinion is the same from the first point to the last.</p>;
  return (
    <ul>
      {turns.map(({ n, begins, ends }) => {
        const point = trial.points.find((each) => each.n === n);
        return (
          <li>
            From {trialMark(trial, n)} ({shareWords(trial.kind, point?.at ?? [])}) its opinion
            changes.
            {begins.map(({ level, says }) => ` ${level === "stop" ? "Stop" : "Caution"}: ${says}`)}
            {ends.length > 0 ? ` No longer: ${ends.map(({ says }) => says).join(" ")}` : ""}
          </li>
        );
      })}
    </ul>
  );
};

const Became = ({ trial }: { trial: ShownTrial }) => {
  const made = trial.points.flatMap(({ n, recipes }) => recipes.map((recipe) => ({ n, recipe })));
  if (made.length === 0) return null;
  return (
    <>
      <h2>What became a recipe</h2>
      <ul>
        {made.map(({ n, recipe }) => (
          <li>
            {trialMark(trial, n)} became <a href={`/recipes/${recipe.slug}`}>{recipe.name}</a>
          </li>
        ))}
      </ul>
    </>
  );
};
