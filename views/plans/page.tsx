import type { Decimal } from "decimal.js";
import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { When } from "../people/when.tsx";

type ShownPlan = {
  id: string;
  recipe: { slug: string; name: string };
  revision: number;
  baseGrams: Decimal;
  note: string;
  by: string;
  at: Date;
};

export type PlansPageProps = {
  /** In the order of their making. */
  plans: readonly ShownPlan[];
  mayPlan: boolean;
  typed: (path: string) => string;
  faults: readonly Fault[];
  newKey: () => string;
};

/** The batches that the studio means to mix, and the form for a further one. */
export const PlansPage = ({ plans, mayPlan, ...form }: PlansPageProps) => (
  <section>
    <h1>Planned batches</h1>
    <p>
      What the studio means to mix. A plan needs powder until it is ended:{" "}
      <a href="/shopping">what to buy for all of them</a>.
    </p>
    {plans.length === 0 ? <p>Nothing is planned.</p> : null}
    <ol class="notes">
      {plans.map((plan) => (
        <Plan plan={plan} mayEnd={mayPlan} newKey={form.newKey} />
      ))}
    </ol>
    {mayPlan ? <PlanForm {...form} /> : null}
  </section>
);

type PlanProps = { plan: ShownPlan; mayEnd: boolean; newKey: () => string };

const Plan = ({ plan: { id, recipe, revision, ...plan }, mayEnd, newKey }: PlanProps) => (
  <li class="note" id={`plan-${id}`}>
    <p class="note-on">
      <a href={`/recipes/${recipe.slug}/revisions/${revision}`}>
        {recipe.name}, revision {revision}
      </a>
      : {plan.baseGrams.toFixed()} g of base
    </p>
    {plan.note === "" ? null : <p class="note-text">{plan.note}</p>}
    <p class="note-by">
      {plan.by}, <When at={plan.at} />
    </p>
    {mayEnd ? (
      <form class="actions" method="post" action={`/plans/${id}/end`}>
        <input type="hidden" name="idempotencyKey" value={newKey()} />
        <button type="submit" name="is" value="mixed" class="quiet">
          It is mixed<span class="hidden-words">: {recipe.name}</span>
        </button>{" "}
        <button type="submit" name="is" value="dropped" class="quiet">
          Drop it<span class="hidden-words">: {recipe.name}</span>
        </button>
      </form>
    ) : null}
  </li>
);

type FormProps = Pick<PlansPageProps, "typed" | "faults" | "newKey">;

const PlanForm = ({ typed, faults, newKey }: FormProps) => {
  const field = (name: string) => ({ name, value: typed(name), fault: faultAt(faults, name) });
  return (
    <form method="post" action="/plans">
      <h2>Plan a batch</h2>
      <FaultSummary faults={faults} />
      <input type="hidden" name="idempotencyKey" value={newKey()} />
      <Field
        label="Recipe, as its address has it"
        {...field("recipe")}
        hint="The last part of its page's address, such as slack-water."
        maxlength={80}
        autocomplete="off"
        required
      />
      <Field
        label="Revision"
        {...field("revision")}
        hint="The newest where nothing is said."
        inputmode="numeric"
        autocomplete="off"
      />
      <Field
        label="Base to weigh"
        {...field("grams")}
        hint="Additions come on top. Leave it empty to fill a bucket instead."
        inputmode="decimal"
        unit="g"
      />
      <Field
        label="Or litres of slurry to make"
        {...field("fill.litres")}
        inputmode="decimal"
        unit="litres"
      />
      <Field
        label="Its specific gravity"
        {...field("fill.specificGravity")}
        hint="Of the slurry, such as 1.45. Only with litres."
        inputmode="decimal"
      />
      <Field
        label="What for"
        {...field("note")}
        hint="Such as: for the children's class in June."
        maxlength={500}
        autocomplete="off"
      />
      <p class="actions">
        <button type="submit">Plan it</button>
      </p>
    </form>
  );
};
