import { FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { replacementHref } from "../replacement/types.ts";
import { Day } from "./day.tsx";
import { type Faults, faultAt, type Typed } from "./typed.ts";
import { UsedIn, type Uses } from "./used-in.tsx";

type DiscontinuationFormProps = {
  material: { slug: string; name: string };
  discontinued: { since: string; why: string } | null;
  uses: Uses;
  typed: Typed;
  faults: Faults;
};

/** That a material is no longer sold, with what that breaks, or that it is sold again. */
export const DiscontinuationForm = (props: DiscontinuationFormProps) => {
  const { material, discontinued, uses, typed, faults } = props;
  const action = `/materials/${material.slug}/discontinuation`;
  return (
    <section id="discontinuation-form">
      <h1>{material.name}: is it still sold?</h1>
      {discontinued ? (
        <p>
          It is no longer sold since <Day on={discontinued.since} />. {discontinued.why}
        </p>
      ) : (
        <p>As far as the studio knows it is sold.</p>
      )}
      <FaultSummary faults={faults} />
      <form method="post" action={discontinued ? `${action}/end` : action}>
        {discontinued ? null : (
          <Field
            label="No longer sold since"
            name="since"
            type="date"
            value={typed("since")}
            fault={faultAt(faults, "since")}
            required
          />
        )}
        <TextArea
          label={discontinued ? "Why it counts as sold again" : "Why"}
          name="why"
          value={typed("why")}
          fault={faultAt(faults, "why")}
          hint={
            discontinued
              ? "Who sells it now."
              : "Who said so, and what is sold instead, if anything."
          }
          required
          rows={3}
          maxlength={1000}
        />
        <p class="actions">
          <button type="submit">
            {discontinued ? "It is sold again" : "It is no longer sold"}
          </button>
          <a href={`/materials/${material.slug}`}>Back to {material.name}</a>
        </p>
      </form>
      <h2>What depends on it</h2>
      <UsedIn uses={uses} nothing="No recipe uses it." />
      {uses.recipes.length > 0 ? (
        <p>
          <a class="button quiet" href={replacementHref(material.slug)}>
            What stands in for it
          </a>
        </p>
      ) : null}
    </section>
  );
};
