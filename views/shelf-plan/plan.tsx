import { ShelfCurve } from "../charts/shelf-curve.tsx";
import { PowderName } from "../parts/powder-name.tsx";
import { CostOfShelf } from "./cost.tsx";
import { recipesInWords } from "./form-words.ts";
import { Missed, Mixes, StillToBeHad } from "./mixes.tsx";
import type { Plan } from "./types.ts";

type PlanAnswerProps = { plan: Plan; names: ReadonlyMap<string, string>; within: string };

/** The shelf that was found: what stands on it, what it reaches, what it misses and what it costs. */
export const PlanAnswer = ({ plan, names }: PlanAnswerProps) => {
  const named = (slug: string) => names.get(slug) ?? slug;
  const { materials, reached, missed, unused, curve, cost } = plan;
  const all = reached.length + missed.length;
  return (
    <section id="plan" class="plan-answer" role="status">
      <h2>
        {materials.length === 1 ? "One material reaches" : `${materials.length} materials reach`}{" "}
        {reached.length} of {recipesInWords(all)}
      </h2>
      <ul class="plan-shelf">
        {materials.map((slug) => (
          <li>
            <a href={`/materials/${encodeURIComponent(slug)}`}>
              <PowderName name={named(slug)} />
            </a>
            {unused.includes(slug) ? " (in none of these lines)" : ""}
          </li>
        ))}
      </ul>
      {plan.budget ? <p class="answer">{plan.budget.says}</p> : null}
      <p>{proofWords(plan)}</p>
      {curve ? <ShelfCurve points={curve} chosen={materials.length} recipes={all} /> : null}
      {reached.length === 0 ? null : (
        <>
          <h3>What to weigh</h3>
          <Mixes mixes={reached} />
        </>
      )}
      <StillToBeHad wanted={plan.stillToBeHad} />
      {missed.length === 0 ? null : (
        <>
          <h3>Not reached</h3>
          <Missed missed={missed} />
        </>
      )}
      {cost ? <CostOfShelf cost={cost} /> : null}
    </section>
  );
};

function proofWords({ proven, bound, reached, stopped, budget }: Plan): string {
  const asked = budget ? `shelf for ${budget.amount} ${budget.currency}` : "shelf of this size";
  if (proven && !stopped) return `No other ${asked} reaches more: every one was ruled out.`;
  if (proven)
    return `No other ${asked} reaches more. Whether a cheaper one reaches as many was not settled before the search ended.`;
  const left = bound > reached.length ? `no ${asked} reaches more than ${bound}` : "";
  const why =
    stopped === "clock"
      ? "The time was up before the search was done"
      : "The search stopped after the work it is allowed";
  return `${why}: this is the best found${left ? `, and ${left}` : ""}. Fewer recipes or materials let it finish.`;
}
