import { Choice, type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { Wide } from "../parts/wide.tsx";
import { Label } from "./label.tsx";
import { type LabelSize, labelSizes, leftOut, placesOf } from "./sizes.ts";
import type { ShownCode, ShownLabel } from "./types.ts";

type LabelPageProps = {
  label: ShownLabel;
  size: LabelSize;
  /** The place on the sheet that the first label takes, from 1. */
  from: number;
  copies: number;
  code: ShownCode;
  address: string;
  typed: (name: string) => string;
  faults: readonly Fault[];
};

/** The label of a bucket as it prints, with the choice of paper beside it. */
export const LabelPage = (props: LabelPageProps) => {
  const { label, size, from, copies, code, address } = props;
  const blanks = Array.from({ length: from - 1 });
  const labels = Array.from({ length: copies });
  return (
    <article class="label-page">
      <div class="screen-only">
        <h1>Label of {label.bucket.name}</h1>
        <Choices {...props} />
        <h2>As it prints</h2>
        <LeftToTheCode size={size} />
      </div>
      <Wide label="The label">
        <div class={`label-sheet label-sheet-${size.id}`}>
          {blanks.map(() => (
            <div class="label-blank" />
          ))}
          {labels.map(() => (
            <Label label={label} size={size} code={code} address={address} />
          ))}
        </div>
      </Wide>
      <p class="screen-only">
        <a href={`/buckets/${label.bucket.id}`}>Back to {label.bucket.name}</a>
      </p>
    </article>
  );
};

const Choices = ({ label, typed, faults }: LabelPageProps) => {
  const told = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <form method="get" action={`/buckets/${label.bucket.id}/label`} class="care-form">
      <FaultSummary faults={faults} />
      <Choice
        label="Paper"
        {...told("size")}
        options={labelSizes.map(({ id, says }) => ({ value: id, label: says }))}
      />
      <div class="care-fields">
        <Field
          label="Begin with place"
          {...told("from")}
          hint="Row by row from the top left; those before are used up."
          inputmode="numeric"
          autocomplete="off"
        />
        <Field label="Copies" {...told("copies")} inputmode="numeric" autocomplete="off" />
      </div>
      <p class="label-taps">
        <button type="submit">Show it so</button>{" "}
        <button type="button" class="quiet" data-print hidden>
          Print this page
        </button>
      </p>
      <p>
        Print at 100 %, not fitted to the page. A label tells what held on the day when it was
        printed: print a new one when the bucket is mixed again or its standing changes.
      </p>
    </form>
  );
};

const LeftToTheCode = ({ size }: { size: LabelSize }) => {
  const left = leftOut(size);
  return left.length === 0 ? (
    <p>Everything is on it, as far as there is room for hazard statements.</p>
  ) : (
    <p>
      {placesOf(size)} on a sheet. For want of room the code's page alone has: {left.join(", ")}.
    </p>
  );
};
