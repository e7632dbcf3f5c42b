import { Field, faultAt, TextArea } from "../parts/field.tsx";
import type { MixPageProps } from "./types.ts";

/** How a mix ends, for whoever may end it. */
export const Ends = (props: MixPageProps) => {
  const { mix, mayEnd, faults, typedEnds } = props;
  if (mix.end) return null;
  if (!mayEnd)
    return (
      <p>
        {mix.by.name} or a manager finishes the mix, or gives it up. Tell them when every line is
        in.
      </p>
    );
  const address = `/mixes/${mix.id}`;
  return (
    <>
      <form method="post" action={`${address}/finish`}>
        <h2>Finish it</h2>
        <p>
          When every line is in. The bucket is on hold from then on, until a proof tile came out as
          it should.
        </p>
        <Field
          label="Water that went in"
          name="waterGrams"
          value={typedEnds?.waterGrams || mix.waterGrams?.toFixed()}
          fault={faultAt(faults, "waterGrams")}
          inputmode="decimal"
          autocomplete="off"
          unit="g"
          required
        />
        <button type="submit">It is mixed</button>
      </form>
      <details class="mix-give-up" open={faultAt(faults, "why") !== undefined}>
        <summary>Give it up</summary>
        <form method="post" action={`${address}/giving-up`}>
          <p>What went in stays taken from its lots, unless you undo it.</p>
          <TextArea
            label="Why"
            name="why"
            value={typedEnds?.why ?? ""}
            fault={faultAt(faults, "why")}
            hint="Such as: the scale was wrong; or: the bucket fell over."
            rows={2}
            maxlength={1000}
            required
          />
          <button type="submit" class="quiet">
            Give it up
          </button>
        </form>
      </details>
    </>
  );
};
