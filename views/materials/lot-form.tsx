import { Choice, FaultSummary, Field } from "../parts/field.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";

type LotFormProps = {
  material: {
    slug: string;
    name: string;
    analyses: readonly { id: string; source: string; measuredOn: string | null }[];
  };
  suppliers: readonly { slug: string; name: string }[];
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** What was bought of a powder, to fill in from the delivery note. */
export const LotForm = ({ material, suppliers, typed, faults, idempotencyKey }: LotFormProps) => {
  const field = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <section id="lot-form">
      <h1>A lot of {material.name}</h1>
      <FaultSummary faults={faults} />
      {suppliers.length === 0 ? (
        <p>
          Nobody is on record who sells powders. <a href="/suppliers">Add the supplier first</a>.
        </p>
      ) : null}
      <form method="post" action={`/materials/${material.slug}/lots`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Choice
          label="Supplier"
          {...field("supplier")}
          options={[
            { value: "", label: "Choose" },
            ...suppliers.map(({ slug, name }) => ({ value: slug, label: name })),
          ]}
          required
        />
        <Field
          label="One pack holds"
          {...field("packGrams")}
          inputmode="decimal"
          unit="g"
          required
        />
        <Field
          label="One pack costs"
          {...field("packPrice")}
          inputmode="decimal"
          hint="As on the bill, with what it cost to have it sent."
          required
        />
        <Field
          label="Currency"
          {...field("currency")}
          hint="Its three letters, such as GBP."
          maxlength={3}
          autocomplete="off"
          required
        />
        <Field
          label="All packs of this lot hold"
          {...field("grams")}
          inputmode="decimal"
          unit="g"
          required
        />
        <Choice
          label="Analysis of this very lot"
          {...field("analysis")}
          hint="One that came with it or was made of it. Without one the powder's own stands in, marked so."
          options={[
            { value: "", label: "None: nobody analysed this lot" },
            ...material.analyses.map(({ id, source, measuredOn }) => ({
              value: id,
              label: measuredOn ? `${source}, ${measuredOn}` : source,
            })),
          ]}
        />
        <Field
          label="What is written on the bag"
          {...field("mark")}
          hint="So that it can be told from the next one."
          maxlength={80}
          autocomplete="off"
        />
        <Field
          label="Best before"
          {...field("bestBefore")}
          type="date"
          hint="Where the bag says so, or where it rots or takes up water."
        />
        <p class="actions">
          <button type="submit">Add the lot</button>
          <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
        </p>
      </form>
    </section>
  );
};
