import { trialMark } from "../../src/chem/tile-marks.ts";
import { ScreenWord } from "../blends/screen.tsx";
import { shareWords } from "../blends/words.ts";
import { KilnPages } from "../firings/kiln-pages.tsx";
import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { DustCaution } from "../parts/cautions.tsx";
import { ChemistryTables } from "../parts/chemistry.tsx";
import { Choice, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { PictureFields } from "./picture-form.tsx";
import { CameOf } from "./results.tsx";
import { type ShownResult, type ShownTrial, type ShownTrialPoint, trialHref } from "./types.ts";
import { WithdrawalForm } from "./withdrawal-form.tsx";

export type TrialPointPageProps = {
  trial: ShownTrial;
  point: ShownTrialPoint;
  bodies: readonly { slug: string; name: string }[];
  firings: readonly { id: string; kiln: { name: string }; cone: string; startedAt: Date }[];
  defects: readonly string[];
  faults: Faults;
  typed: Typed;
  idempotencyKey: string;
  mayWithdraw: (result: ShownResult) => boolean;
  /** What was to be withdrawn, and the reason as it was typed. */
  withdrawing?: { id: string; why: string } | undefined;
};

/** One point: its recipe, what the screen says, what came of it, and the way to make it a recipe. */
export const TrialPointPage = (props: TrialPointPageProps) => {
  const { trial, point, faults } = props;
  const mark = trialMark(trial, point.n);
  return (
    <article id="trial-point">
      <h1>
        {mark} of {trial.name}
      </h1>
      <KilnPages here="/trials" />
      <p>
        Point {point.n} of {trial.points.length}, {shareWords(trial.kind, point.at)}.{" "}
        <a href={trialHref(trial)}>All points of the trial</a>
      </p>
      <FaultSummary faults={faults} />
      <table class="figures">
        <caption>At a base of 100</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col">Amount</th>
          </tr>
        </thead>
        <tbody>
          {point.named.map(({ name, part, amount }) => (
            <tr>
              <th scope="row">
                {name}
                {part === "addition" ? ", on top" : ""}
              </th>
              <td>{amount.toDecimalPlaces(3).toFixed()}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        The screen: <ScreenWord findings={point.chemistry.findings} />.{" "}
        <a href="#screen">What it found, and the chemistry</a>
      </p>
      <h2>What came of it</h2>
      {point.results.length === 0 ? <p>Nothing is put down yet.</p> : null}
      {point.results.map((result) => (
        <>
          <CameOf results={[result]} mark={mark} />
          {result.withdrawn ? null : <PictureFields resultId={result.id} faults={faults} />}
          {props.mayWithdraw(result) && !result.withdrawn ? (
            <WithdrawalForm
              resultId={result.id}
              typed={props.withdrawing?.id === result.id ? props.withdrawing.why : undefined}
              faults={faults}
            />
          ) : null}
        </>
      ))}
      <ResultForm {...props} />
      <RecipeForm {...props} />
      <h2 id="screen">What the screen says</h2>
      <ChemistryTables
        chemistry={point.chemistry}
        lineNames={point.named.map(({ name }) => name)}
        {...(trial.cone && { cone: trial.cone })}
      />
      <DustCaution />
    </article>
  );
};

const ResultForm = ({
  trial,
  point,
  bodies,
  firings,
  defects,
  faults,
  typed,
  idempotencyKey,
}: TrialPointPageProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <form method="post" action={`${trialHref(trial, point.n)}/results`} class="screen-only">
      <h3>Put down what you see</h3>
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field label="Surface and colour" {...told("surface")} maxlength={60} />
      <Choice
        label="Cone that it came out at"
        {...told("cone")}
        options={[{ value: "", label: "not known" }, ...coneChoices()]}
        hint="By the witness cone beside it."
      />
      <Choice
        label="Body"
        {...told("body")}
        options={[
          { value: "", label: "not told" },
          ...bodies.map(({ slug, name }) => ({ value: slug, label: name })),
        ]}
      />
      <Choice
        label="Firing"
        {...told("firing")}
        options={[
          { value: "", label: "not told" },
          ...firings.map(({ id, kiln, cone, startedAt }) => ({
            value: id,
            label: `${kiln.name}, cone ${cone}, ${startedAt.toISOString().slice(0, 10)}`,
          })),
        ]}
      />
      <fieldset class="firing-units">
        <legend>Defects</legend>
        {defects.map((defect) => (
          <label>
            <input type="checkbox" name="defects" value={defect} />
            {defect}
          </label>
        ))}
      </fieldset>
      <TextArea label="Remark" {...told("remark")} maxlength={2000} rows={3} />
      <p class="actions">
        <button type="submit">Put this down</button>
      </p>
    </form>
  );
};

const RecipeForm = ({ trial, point, faults, typed, idempotencyKey }: TrialPointPageProps) => (
  <section>
    <h2>Make it a recipe</h2>
    {point.recipes.map(({ slug, name }) => (
      <p>
        It became <a href={`/recipes/${slug}`}>{name}</a>.
      </p>
    ))}
    <p>
      It becomes yours, a draft for decorative use that the studio can read. What was seen here does
      not count for it: same chemistry is a new tile, fired for the recipe.
    </p>
    <form method="post" action={`${trialHref(trial, point.n)}/recipe`} class="screen-only">
      <input type="hidden" name="idempotencyKey" value={`${idempotencyKey}-recipe`} />
      <Field
        label="Name of the recipe"
        name="name"
        value={typed("name")}
        fault={faultAt(faults, "name")}
        maxlength={80}
        required
      />
      <p class="actions">
        <button type="submit">Make it a recipe</button>
      </p>
    </form>
  </section>
);
