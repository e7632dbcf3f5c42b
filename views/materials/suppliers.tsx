import { FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type SuppliersProps = {
  suppliers: readonly { slug: string; name: string; about: string }[];
  mayAdd: boolean;
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** Who the studio buys powders from, and the form for a further one. */
export const Suppliers = ({ suppliers, mayAdd, ...form }: SuppliersProps) => (
  <section>
    <h1>Suppliers</h1>
    <p>
      Who sells powders to the studio, for how much, and what was bought of them.{" "}
      <a href="/shopping">What to buy now</a> is worked out by these prices.
    </p>
    {suppliers.length === 0 ? <p>Nobody is on record yet.</p> : null}
    <dl class="tile-facts">
      {suppliers.map(({ slug, name, about }) => (
        <div id={`supplier-${slug}`}>
          <dt>
            <a href={`/suppliers/${slug}`}>{name}</a>
          </dt>
          <dd>{about === "" ? "Nothing more is said of them." : about}</dd>
        </div>
      ))}
    </dl>
    {mayAdd ? <SupplierForm {...form} /> : null}
  </section>
);

const SupplierForm = ({
  typed,
  faults,
  idempotencyKey,
}: Pick<SuppliersProps, "typed" | "faults" | "idempotencyKey">) => (
  <form method="post" action="/suppliers">
    <h2>Add a supplier</h2>
    <FaultSummary faults={faults} />
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <Field
      label="Name"
      name="name"
      value={typed("name")}
      fault={faultAt(faults, "name")}
      required
      maxlength={80}
      autocomplete="off"
    />
    <TextArea
      label="About them"
      name="about"
      value={typed("about")}
      fault={faultAt(faults, "about")}
      hint="How to order, how long it takes, from what amount they deliver."
      rows={3}
      maxlength={2000}
    />
    <p class="actions">
      <button type="submit">Add the supplier</button>
    </p>
  </form>
);
