import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";

type StudioSettingsProps = {
  typed: {
    name: string;
    showsPublic: boolean;
    scaleGrams: string;
    approvalMonths: string;
    colourTolerance: string;
    currency: string;
    mixTolerancePercent: string;
    stockWeeks: string;
    /** The ids of those that are ticked. */
    jurisdictions: readonly string[];
  };
  /** Whose limits are held here. */
  jurisdictions: readonly { id: string; name: string; country: string }[];
  /** Where powders have other names, so that people can choose to read those. */
  regions: readonly string[];
  faults: readonly Fault[];
};

/** What a manager sets for the whole studio. */
export const StudioSettings = ({ typed, faults, jurisdictions, regions }: StudioSettingsProps) => (
  <section>
    <h1>The studio</h1>
    <FaultSummary faults={faults} />
    <form method="post" action="/studio">
      <Field
        label="Its name"
        name="name"
        value={typed.name}
        fault={faultAt(faults, "name")}
        maxlength={80}
        required
      />
      <label>
        <input type="checkbox" name="showsPublic" checked={typed.showsPublic} /> Visitors without an
        account may read what its owners show to everyone
      </label>
      <Field
        label="The scale shows steps of"
        name="scaleGrams"
        value={typed.scaleGrams}
        fault={faultAt(faults, "scaleGrams")}
        hint="Batches are rounded to it, and their weighing counts in the ± by it."
        inputmode="decimal"
        unit="g"
        required
      />
      <Field
        label="An approval holds for"
        name="approvalMonths"
        value={typed.approvalMonths}
        fault={faultAt(faults, "approvalMonths")}
        hint="Then it needs another look. Leave it empty and it holds until something speaks against it."
        inputmode="numeric"
        unit="months"
      />
      <Field
        label="A bucket's proof tile may differ in colour by"
        name="colourTolerance"
        value={typed.colourTolerance}
        fault={faultAt(faults, "colourTolerance")}
        hint="ΔE00 from the bucket's first proof tile; about 2 is what most eyes see. Leave it empty and no line is drawn."
        inputmode="decimal"
      />
      <Field
        label="A weight in a mix may be off by"
        name="mixTolerancePercent"
        value={typed.mixTolerancePercent}
        fault={faultAt(faults, "mixTolerancePercent")}
        hint="Of its own line. Beyond it the mix says how to put it right, and what it does to the glaze."
        inputmode="decimal"
        unit="%"
        required
      />
      <Field
        label="There should be powder for"
        name="stockWeeks"
        value={typed.stockWeeks}
        fault={faultAt(faults, "stockWeeks")}
        hint="By how much of it was used lately. A powder that is short of that is on the list to order."
        inputmode="numeric"
        unit="weeks"
        required
      />
      <Field
        label="Prices are shown in"
        name="currency"
        value={typed.currency}
        fault={faultAt(faults, "currency")}
        hint="Three letters, such as GBP. Leave it empty and it is the currency last paid in."
        maxlength={3}
      />
      <fieldset id="field-jurisdictions" tabindex={-1}>
        <legend>Whose limits leach reports are held against</legend>
        <p>
          Lead and cadmium only, as printed when they were looked up. Limits change, and are a
          country's law: ask your laboratory which hold for what you sell.
        </p>
        {faultAt(faults, "jurisdictions") ? (
          <p class="field-faulty">
            <span class="field-fault">{faultAt(faults, "jurisdictions")}</span>
          </p>
        ) : null}
        {jurisdictions.map(({ id, name, country }) => (
          <label>
            <input
              type="checkbox"
              name="jurisdictions"
              value={id}
              checked={typed.jurisdictions.includes(id)}
            />
            {country.includes(name) ? name : `${name} (${country})`}
          </label>
        ))}
      </fieldset>
      <button type="submit">Set it so</button>
    </form>
    <h2>What each person sets</h2>
    <p>
      Units, light or dark, how chemistry is counted, and whose{" "}
      <a href="/guide/names">names of powders</a> come first are for{" "}
      <a href="/account/settings">each person</a> to choose.{" "}
      {regions.length === 0
        ? "No powder has a name of another region on record yet: add one on the page of the powder."
        : `Names can be read as in ${regions.join(", ")}; another region is offered as soon as a powder has a name of it.`}
    </p>
  </section>
);
