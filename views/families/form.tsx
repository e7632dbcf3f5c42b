import { type Fault, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { leftOutWords } from "./words.ts";

export type FamilyTyped = { name: string; recipes: string; intro: string };

type FamilyFormProps = {
  /** The family that is changed; without one a new one is made. */
  family: { slug: string; name: string; leftOut: number } | undefined;
  typed: FamilyTyped;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The form that writes recipes up together, or says anew which they are. */
export const FamilyForm = ({ family, typed, faults, idempotencyKey }: FamilyFormProps) => {
  const atFields = faults.map(({ path, says }) => ({ path: path.split(".")[0] ?? "", says }));
  const faultOf = (name: string) => {
    const own = atFields.filter(({ path }) => path === name).map(({ says }) => says);
    return own.length > 0 ? own.join(" ") : undefined;
  };
  return (
    <section id="family-form">
      <h1>{family ? `Change ${family.name}` : "Write recipes up together"}</h1>
      <FaultSummary faults={atFields} />
      <form method="post" action={family ? `/families/${family.slug}` : "/families"}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Field
          label="Name"
          name="name"
          value={typed.name}
          required
          maxlength={80}
          hint="Such as: The terns."
          fault={faultOf("name")}
        />
        <TextArea
          label="Recipes"
          name="recipes"
          value={typed.recipes}
          required
          rows={6}
          hint="One a line, by its name or by the last part of its address, in the order to show them."
          fault={faultOf("recipes")}
        />
        {family && family.leftOut > 0 ? (
          <p>
            {leftOutWords(family.leftOut)} What you may not see stays in the family, at its end.
          </p>
        ) : null}
        <TextArea
          label="Introduction"
          name="intro"
          value={typed.intro}
          rows={8}
          maxlength={8000}
          hint="What they have in common, how they differ, and what to begin with."
          fault={faultOf("intro")}
        />
        <p class="actions">
          <button type="submit">{family ? "Keep it so" : "Make the family"}</button>
          <a href={family ? `/families/${family.slug}` : "/families"}>Back</a>
        </p>
      </form>
    </section>
  );
};
