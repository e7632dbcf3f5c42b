import type { Fault } from "../parts/field.tsx";
import { Term } from "../parts/term.tsx";
import { PlanAnswer } from "./plan.tsx";
import { PlanForm, type PlannedForm } from "./plan-form.tsx";
import { ReachAnswer } from "./reach.tsx";
import { type HadForm, ReachForm } from "./reach-form.tsx";
import type { Choices, Plan, Reach } from "./types.ts";

type ShelfPlanPageProps = Choices & {
  planned: PlannedForm;
  had: HadForm;
  /** Whose form was sent. */
  which: "plan" | "reach";
  faults: readonly Fault[];
  plan: Plan | undefined;
  reach: Reach | undefined;
};

/** Which few materials cover the most recipes, and how far a given shelf goes, for anybody. */
export const ShelfPlanPage = ({
  planned,
  had,
  which,
  faults,
  plan,
  reach,
  ...choices
}: ShelfPlanPageProps) => {
  const names = new Map(choices.materials.map(({ slug, name }) => [slug, name]));
  return (
    <article>
      <h1>Plan a shelf</h1>
      <p>
        Say which recipes you want and how many materials you are ready to keep, and read from which
        few of them the most recipes can be weighed out, restated so that the{" "}
        <Term
          guide="unity-formula#moles"
          means="Moles of each oxide for every mole of flux: what makes one glaze chemically the same as another, whatever powders it was weighed from."
        >
          unity formula
        </Term>{" "}
        stays the same within a tolerance. Nothing is stored. The same chemistry is not the same
        glaze until a tile says so: each of these is a new tile to fire.
      </p>
      <nav aria-label="On this page">
        <ul class="plan-ways">
          <li>
            <a href="#plan-form">Which few materials?</a>
          </li>
          <li>
            <a href="#reach-form">How far does my shelf go?</a>
          </li>
        </ul>
      </nav>
      {plan ? <PlanAnswer plan={plan} names={names} within={planned.within} /> : null}
      {reach ? <ReachAnswer reach={reach} /> : null}
      <PlanForm {...choices} planned={planned} faults={which === "plan" ? faults : []} />
      <ReachForm {...choices} had={had} faults={which === "reach" ? faults : []} />
      <p>
        Also here, for anybody: <a href="/chemistry">the chemistry of a glaze</a>, and{" "}
        <a href="/slurry">what is in a slurry</a>.
      </p>
    </article>
  );
};
