import type { Child } from "hono/jsx";
import { type Fault, FaultSummary, Field, faultAt, TextArea } from "../parts/field.tsx";

export type PriceFormProps = {
  supplier: { slug: string; name: string };
  typed: (path: string) => string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What one pack of a powder costs there now. */
export const PackForm = (props: PriceFormProps) => (
  <Form {...props} title={`A price of ${props.supplier.name}`} to="packs" verb="Put it on record">
    <Field
      label="Powder"
      {...fieldOf(props, "material")}
      hint="Its name on the shelf, or the last part of its page's address."
      maxlength={80}
      autocomplete="off"
      required
    />
    <Field
      label="One pack holds"
      {...fieldOf(props, "packGrams")}
      inputmode="decimal"
      unit="g"
      autocomplete="off"
      required
    />
    <Field
      label="One pack costs"
      {...fieldOf(props, "packPrice")}
      hint="Without what sending costs."
      inputmode="decimal"
      autocomplete="off"
      required
    />
    <Currency {...props} />
  </Form>
);

/** A whole price list, pasted. */
export const PriceListForm = (props: PriceFormProps) => (
  <Form
    {...props}
    title={`The price list of ${props.supplier.name}`}
    to="price-list"
    verb="Put the list on record"
  >
    <TextArea
      label="The list"
      {...fieldOf(props, "text")}
      hint="On each line a powder, the grams of a pack and its price, apart by commas, semicolons or tabs. All of it is put on record, or none."
      rows={12}
      required
    />
    <Currency {...props} />
  </Form>
);

/** What it takes for sending, and whose words it uses. */
export const TermsForm = (props: PriceFormProps) => (
  <Form
    {...props}
    title={`What sending costs of ${props.supplier.name}`}
    to="terms"
    verb="Put it down"
  >
    <Field
      label="Sending costs"
      {...fieldOf(props, "carriage")}
      hint="0 where it is always free."
      inputmode="decimal"
      autocomplete="off"
      required
    />
    <Field
      label="It is free from"
      {...fieldOf(props, "freeFrom")}
      hint="What has to be bought for it; nothing where it never is."
      inputmode="decimal"
      autocomplete="off"
    />
    <Currency {...props} />
    <Field
      label="Region whose names it uses"
      {...fieldOf(props, "region")}
      hint="As the names of powders elsewhere have it, so that a shopping list says its words."
      maxlength={60}
      autocomplete="off"
    />
  </Form>
);

type FormProps = PriceFormProps & { title: string; to: string; verb: string; children?: Child };

const Form = ({ supplier, faults, idempotencyKey, title, to, verb, children }: FormProps) => (
  <section>
    <h1>{title}</h1>
    <FaultSummary faults={faults} />
    <form method="post" action={`/suppliers/${supplier.slug}/${to}`}>
      <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
      {children}
      <p class="actions">
        <button type="submit">{verb}</button>
        <a href={`/suppliers/${supplier.slug}`}>Back to {supplier.name}</a>
      </p>
    </form>
  </section>
);

const fieldOf = ({ typed, faults }: PriceFormProps, name: string) => ({
  name,
  value: typed(name),
  fault: faultAt(faults, name),
});

const Currency = (props: PriceFormProps) => (
  <Field
    label="Currency"
    {...fieldOf(props, "currency")}
    hint="Its three letters, such as GBP."
    maxlength={3}
    autocomplete="off"
    required
  />
);
