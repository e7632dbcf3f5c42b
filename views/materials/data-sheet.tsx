import { Choice, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import { Day } from "./day.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

export type ShownSheet = {
  signal: "danger" | "warning" | "none";
  statements: readonly string[];
  precautions: readonly string[];
  issuedOn: string | null;
  source: string;
  by: { name: string };
  at: Date;
};

export type DataSheetProps = { slug: string; sheet: ShownSheet | null; mayManage: boolean };

/** What the supplier's safety data sheet says, word for word. */
export const DataSheet = ({ slug, sheet, mayManage }: DataSheetProps) => (
  <section id="data-sheet">
    <h2>What its safety data sheet says</h2>
    {sheet ? <SheetSays sheet={sheet} /> : <NoSheet />}
    {mayManage ? (
      <p class="actions">
        <a class="button quiet" href={`/materials/${slug}/data-sheets/new`}>
          {sheet ? "Put down a newer sheet" : "Put down what the sheet says"}
        </a>
      </p>
    ) : null}
  </section>
);

const NoSheet = () => (
  <p>
    Nobody has put down what the supplier's safety data sheet says. Ask the supplier for it and read
    it before the bag is opened.
  </p>
);

export const signalWords = {
  danger: "Danger",
  warning: "Warning",
  none: "No signal word",
} as const;

const SheetSays = ({ sheet }: { sheet: ShownSheet }) => (
  <>
    <p>
      <strong>{signalWords[sheet.signal]}.</strong>
    </p>
    <Sentences said={sheet.statements} nothing="No hazard statement was put down." />
    {sheet.precautions.length > 0 ? <h3>Precautions</h3> : null}
    <Sentences said={sheet.precautions} />
    <p>
      Source: {sheet.source}
      {sheet.issuedOn ? (
        <>
          , issued <Day on={sheet.issuedOn} />
        </>
      ) : (
        ", without a date"
      )}
      ; put down by {sheet.by.name}, <When at={sheet.at} />. The supplier's sheet comes before this
      page: read the one that came with the bag.
    </p>
  </>
);

const Sentences = ({ said, nothing }: { said: readonly string[]; nothing?: string }) =>
  said.length > 0 ? (
    <ul>
      {said.map((sentence) => (
        <li>{sentence}</li>
      ))}
    </ul>
  ) : nothing ? (
    <p>{nothing}</p>
  ) : null;

type DataSheetFormProps = {
  material: { slug: string; name: string };
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** For whoever has the supplier's sheet before them. */
export const DataSheetForm = ({ material, typed, faults, idempotencyKey }: DataSheetFormProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <section>
      <h1>Safety data sheet of {material.name}</h1>
      <FaultSummary faults={faults} />
      <p>
        Copy what the supplier's own sheet says, word for word. Labels and pages of buckets repeat
        it; the last one that was put down counts.
      </p>
      <form method="post" action={`/materials/${material.slug}/data-sheets`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Choice
          label="Signal word"
          {...told("signal")}
          options={[
            { value: "", label: "choose what the sheet says" },
            { value: "danger", label: signalWords.danger },
            { value: "warning", label: signalWords.warning },
            { value: "none", label: signalWords.none },
          ]}
          required
        />
        <TextArea
          label="Hazard statements"
          {...told("statements")}
          hint="Each on a line of its own, up to 30."
          rows={6}
        />
        <TextArea
          label="Precautions"
          {...told("precautions")}
          hint="Each on a line of its own, up to 40."
          rows={6}
        />
        <Field label="Issued on" {...told("issuedOn")} type="date" />
        <Field
          label="Whose sheet it is"
          {...told("source")}
          hint="The supplier, and the sheet's name or number."
          maxlength={300}
          autocomplete="off"
          required
        />
        <p class="actions">
          <button type="submit">Put it on record</button>
          <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
        </p>
      </form>
    </section>
  );
};
