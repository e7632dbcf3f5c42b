import { Choice, type Fault, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { kindWords, testKinds } from "./kind-words.ts";
import { KindsExplained } from "./kinds.tsx";
import { ResultRows } from "./result-rows.tsx";

type TestFormProps = {
  recipe: { slug: string; name: string; head: number };
  /** Tiles of the revision's melt that a test can be made on. */
  tiles: readonly { id: string; cone: string; atmosphere: string; clay: string }[];
  /** Classes that some limit is printed for, to choose from. */
  articleClasses: readonly { name: string; says: string }[];
  /** What was typed in a field, by its path. */
  typed: (path: string) => string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The form that puts a test on record: one made at home, or a laboratory's report. */
export const TestForm = ({
  recipe,
  tiles,
  articleClasses,
  typed,
  faults,
  idempotencyKey,
}: TestFormProps) => {
  const faultOf = (path: string) => faults.find((fault) => fault.path === path)?.says;
  const told = (name: string) => ({ name, value: typed(name), fault: faultOf(name) });
  return (
    <article>
      <h1>Add a test of {recipe.name}</h1>
      <p>
        A test that failed counts as much as one that passed. It speaks for this melt on the body
        and in the firing of its tile, and for nothing else.
      </p>
      <KindsExplained />
      <FaultSummary faults={faults} />
      <form method="post" action={`/recipes/${recipe.slug}/tests`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Field
          {...told("revision")}
          label="Revision that was tested"
          inputmode="numeric"
          required
          hint={`The head is revision ${recipe.head}.`}
        />
        <Choice
          {...told("tile")}
          label="Tile that was tested"
          options={[{ value: "", label: "none that is on record" }, ...tiles.map(tileOption)]}
          hint="Only a test on a tile on record can count towards functional ware."
        />
        <Choice
          {...told("kind")}
          label="Test"
          required
          options={[
            { value: "", label: "choose the test" },
            ...testKinds.map((value) => ({ value, label: kindWords[value].name })),
          ]}
        />
        <TextArea
          {...told("method")}
          label="How it was made"
          required
          rows={3}
          maxlength={500}
          hint="What with, how hot, how long, how many times; or the method that the report names."
        />
        <Choice
          {...told("outcome")}
          label="What came of it"
          required
          options={[
            { value: "", label: "choose the outcome" },
            { value: "passed", label: "passed" },
            { value: "failed", label: "failed" },
            { value: "unclear", label: "unclear" },
          ]}
          hint="For a leach report: whether the laboratory says that the article keeps to its limits."
        />
        <TextArea
          {...told("remark")}
          label="Remark"
          maxlength={2000}
          hint="What was to be seen: gloss, colour, cracks, marks."
        />
        <fieldset id="field-results" tabindex={-1}>
          <legend>For a leach report</legend>
          <p>
            Only a laboratory makes a leach test; an acid test at home never stands in for one. Copy
            the figures as they are printed: the element by its symbol, such as Pb, and the report's
            own unit, such as mg/l. Blank rows are left out.
          </p>
          <Field {...told("laboratory")} label="Laboratory" maxlength={120} />
          <Field
            {...told("report")}
            label="Report"
            maxlength={300}
            hint="Its number and its date."
          />
          <Field
            {...told("articleClass")}
            label="Article class"
            maxlength={80}
            list="article-classes"
            hint="As the report names it. One of the classes offered can be held against a limit that is printed for it; in other words it cannot."
          />
          <datalist id="article-classes">
            {articleClasses.map(({ name, says }) => (
              <option value={name}>{says}</option>
            ))}
          </datalist>
          <ResultRows typed={typed} faultOf={faultOf} />
        </fieldset>
        <p class="actions">
          <button type="submit">Put this test on record</button>
          <a class="button quiet" href={`/recipes/${recipe.slug}#tests`}>
            Back to {recipe.name}
          </a>
        </p>
      </form>
    </article>
  );
};

const tileOption = ({ id, cone, atmosphere, clay }: TestFormProps["tiles"][number]) => ({
  value: id,
  label: `cone ${cone}, ${atmosphere}${clay === "" ? "" : `, on ${clay}`} (…${id.slice(-4)})`,
});
