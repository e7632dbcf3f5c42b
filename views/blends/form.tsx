import { type BlendKind, blendKinds } from "../../src/chem/blends.ts";
import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { Choice, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { cornerNames, kindWords } from "./words.ts";

type BlendFormProps = {
  kind: BlendKind;
  typed: Typed;
  faults: Faults;
  materialNames: readonly string[];
  mayKeep: boolean;
  idempotencyKey: string;
};

/** What a blend is made of, for its kind; who belongs to the studio can keep it as a trial. */
export const BlendForm = (props: BlendFormProps) => {
  const { kind, typed, mayKeep, idempotencyKey } = props;
  // A box of a form is the place of whatever is wrong with its lines.
  const faults = props.faults.map(({ path, says }) => ({
    path: path.replace(/^(base|corners\.\d)(\..*)?$/, "$1.text"),
    says,
  }));
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <form class="sheet screen-only" method="post" action="/blends#points">
      <FaultSummary faults={faults} />
      <input type="hidden" name="kind" value={kind} />
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      {kind === "ladder" ? (
        <LadderFields told={told} materialNames={props.materialNames} />
      ) : (
        <CornerFields kind={kind} told={told} />
      )}
      <Choice
        label="Judge it at cone"
        {...told("cone")}
        options={[{ value: "", label: "no cone" }, ...coneChoices()]}
      />
      <div class="buttons">
        <button type="submit" class="main">
          Work it out
        </button>
      </div>
      {mayKeep ? (
        <>
          <h2>Keep it as a trial</h2>
          <p>Then it has a sheet to weigh from, and what comes of each point can be put down.</p>
          <Field label="Name" {...told("name")} maxlength={80} />
          <TextArea
            label="What it is for"
            {...told("about")}
            rows={3}
            maxlength={4000}
            hint="What you hope to learn, on which body, how it is to be fired."
          />
          <div class="buttons">
            <button type="submit" formaction="/trials">
              Put this trial on record
            </button>
          </div>
        </>
      ) : null}
    </form>
  );
};

type Told = (name: string) => { name: string; value: string; fault: string | undefined };

const sourceHint =
  "A recipe's address, such as slack-water or slack-water@2, or its lines: a name and an amount in each row, additions with a + before them.";

const LadderFields = ({
  told,
  materialNames,
}: {
  told: Told;
  materialNames: readonly string[];
}) => (
  <>
    <TextArea label="Base" {...told("base.text")} hint={sourceHint} rows={6} required />
    <Field
      label="What climbs on it"
      {...told("addition")}
      list="material-names"
      autocomplete="off"
      required
    />
    <datalist id="material-names">
      {materialNames.map((name) => (
        <option value={name} />
      ))}
    </datalist>
    <Field label="From" {...told("from")} unit="% of the base" inputmode="decimal" />
    <Field label="To" {...told("to")} unit="% of the base" inputmode="decimal" required />
    <Steps told={told} hint="Intervals: 5 steps have 6 points." />
    <Choice
      label="Spacing"
      {...told("spacing")}
      options={[
        { value: "even", label: "even: the same more each time" },
        { value: "geometric", label: "geometric: the same factor each time" },
      ]}
    />
  </>
);

const CornerFields = ({ kind, told }: { kind: Exclude<BlendKind, "ladder">; told: Told }) => {
  const corners = cornerNames.slice(0, { line: 2, triaxial: 3, grid: 4 }[kind]);
  return (
    <>
      {corners.map((name, at) => (
        <TextArea
          label={`Corner ${name}${kind === "grid" ? `, ${places[at]}` : ""}`}
          {...told(`corners.${at}.text`)}
          hint={at === 0 ? sourceHint : undefined}
          rows={4}
          required
        />
      ))}
      <Steps told={told} hint={stepHints[kind]} />
      <Choice
        label="Shares are of"
        {...told("measure")}
        options={[
          { value: "dry weight", label: "dry weight: each point is weighed" },
          { value: "slurry volume", label: "volume: slurries are mixed wet" },
        ]}
      />
      {corners.map((name, at) => (
        <Field
          label={`Specific gravity of slurry ${name}`}
          {...told(`gravities.${at}`)}
          hint={
            at === 0 ? "Only for shares of volume. Kilograms of one litre, as in 1.45." : undefined
          }
          inputmode="decimal"
        />
      ))}
    </>
  );
};

const places = ["upper left", "upper right", "lower left", "lower right"] as const;

const stepHints = {
  line: "Intervals: 10 steps have 11 points.",
  triaxial: "Intervals along one side: 4 steps have 15 points, 10 have 66.",
  grid: "Intervals across and down, as in 4 x 3.",
} as const;

const Steps = ({ told, hint }: { told: Told; hint: string }) => (
  <Field label="Steps" {...told("steps")} hint={hint} required autocomplete="off" />
);

/** The kinds of blends, each on its own page, so that a form has only the fields of one. */
export const BlendKinds = ({ kind }: { kind: BlendKind }) => (
  <nav class="kiln-pages" aria-label="Kinds of blends">
    <ul class="rooms">
      {blendKinds.map((each) => (
        <li>
          <a href={`/blends?kind=${each}`} aria-current={each === kind ? "true" : undefined}>
            {kindWords[each].name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);
