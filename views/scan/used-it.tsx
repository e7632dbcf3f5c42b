import { type Fault, Field, faultAt } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import type { ShownScan } from "./types.ts";

type UsedItProps = Pick<ShownScan, "bucket" | "ownUse" | "refused"> & {
  what: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The tick that tells whom a recall has to reach, and how to take it back. */
export const UsedIt = ({ bucket, ownUse, refused, what, faults, idempotencyKey }: UsedItProps) => (
  <section id="used" class="screen-only">
    {ownUse ? (
      <form method="post" action={`/bucket-uses/${ownUse.id}/undoing`}>
        <p class="to-do">
          You used it, <When at={ownUse.at} clock />
          {ownUse.what === "" ? "" : `: ${ownUse.what}`}.
        </p>
        <button type="submit" class="quiet">
          Take that back
        </button>
      </form>
    ) : null}
    {refused === null ? (
      <form method="post" action={`/buckets/${bucket.id}/uses`} class="scan-use">
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Field
          label="What you glaze with it"
          name="what"
          value={what}
          fault={faultAt(faults, "what")}
          hint="If you like. A recall of this bucket then reaches you."
          maxlength={200}
          autocomplete="off"
        />
        <button type="submit">{ownUse ? "I used it again" : "I used it"}</button>
      </form>
    ) : (
      <p>{refused}</p>
    )}
  </section>
);
