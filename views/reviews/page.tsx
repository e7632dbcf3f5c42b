import { FaultSummary } from "../parts/field.tsx";
import { ReviewForm, type ReviewFormProps } from "./form.tsx";

/** The review again, with what was typed and what stands in its way. */
export const ReviewPage = (props: ReviewFormProps) => (
  <section>
    <h1>
      A review of <a href={`/recipes/${props.recipe.slug}`}>{props.recipe.name}</a>
    </h1>
    <FaultSummary faults={props.faults} />
    <ReviewForm {...props} />
  </section>
);
