import type { Decimal } from "decimal.js";
import { FaultSummary, Field } from "../parts/field.tsx";
import { Term } from "../parts/term.tsx";
import { When } from "../people/when.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

export type DryGravityProps = {
  slug: string;
  dryGravity: { gravity: Decimal; source: string; by: { name: string }; at: Date } | null;
  mayManage: boolean;
};

/** How heavy the dry powder is for its room: what the gravity of a bucket is read by. */
export const DryGravity = ({ slug, dryGravity, mayManage }: DryGravityProps) => (
  <section id="dry-gravity">
    <h2>Dry gravity</h2>
    <p>
      {dryGravity ? (
        <>
          The dry powder has a <SpecificGravity /> of {dryGravity.gravity.toFixed()}. Source:{" "}
          {dryGravity.source}; put on record by {dryGravity.by.name}, <When at={dryGravity.at} />.
        </>
      ) : (
        <>
          No <SpecificGravity /> of the dry powder is on record: 2.65 is assumed.
        </>
      )}
    </p>
    {mayManage ? (
      <p class="actions">
        <a class="button quiet" href={`/materials/${slug}/gravities/new`}>
          {dryGravity ? "Say another one" : "Say which it is"}
        </a>
      </p>
    ) : null}
  </section>
);

const SpecificGravity = () => (
  <Term
    guide="bucket#dry-gravity"
    means="How many times as heavy as water it is, grain by grain, without the air between. How much powder a bucket of a certain gravity holds follows from it."
  >
    specific gravity
  </Term>
);

type DryGravityFormProps = {
  material: { slug: string; name: string };
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** What a handbook or a supplier's sheet says of it. */
export const DryGravityForm = ({
  material,
  typed,
  faults,
  idempotencyKey,
}: DryGravityFormProps) => (
  <section>
    <h1>Dry gravity of {material.name}</h1>
    <FaultSummary faults={faults} />
    <form method="post" action={`/materials/${material.slug}/gravities`}>
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      <Field
        label="Specific gravity of the dry powder"
        name="gravity"
        value={typed("gravity")}
        fault={faultAt(faults, "gravity")}
        hint="Of the grains, not of the heap: 2.65 for quartz."
        inputmode="decimal"
        autocomplete="off"
        required
      />
      <Field
        label="Where that comes from"
        name="source"
        value={typed("source")}
        fault={faultAt(faults, "source")}
        hint="A handbook with its table, or the supplier's sheet with its date."
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
