import { type Fault, faultAt } from "../parts/field.tsx";

type WithdrawalFormProps = {
  resultId: string;
  /** What was typed, where this is the one that was to be withdrawn. */
  typed: string | undefined;
  faults: readonly Fault[];
};

/** Withdraws what was put down at a point; there may be several such forms on a page. */
export const WithdrawalForm = ({ resultId, typed, faults }: WithdrawalFormProps) => {
  const fault = typed === undefined ? undefined : faultAt(faults, "why");
  const id = `why-${resultId}`;
  return (
    <details class="screen-only" open={fault !== undefined}>
      <summary>Withdraw it</summary>
      <form method="post" action={`/trials/results/${resultId}/withdrawal`}>
        <div class={fault ? "field field-faulty" : "field"} id={fault ? "field-why" : undefined}>
          <label for={id}>
            Why it is wrong<span class="field-required"> (required)</span>
          </label>
          <span class="field-hint" id={`${id}-hint`}>
            Such as: it was another tile. It stays, struck through, with your reason. This cannot be
            undone.
          </span>
          {fault ? (
            <span class="field-fault" id={`${id}-fault`}>
              <span class="hidden-words">To put right: </span>
              {fault}
            </span>
          ) : null}
          <textarea
            id={id}
            name="why"
            rows={3}
            required
            maxlength={1000}
            aria-describedby={fault ? `${id}-fault ${id}-hint` : `${id}-hint`}
            aria-invalid={fault ? "true" : undefined}
          >
            {typed ?? ""}
          </textarea>
        </div>
        <p class="actions">
          <button type="submit">Withdraw what was put down</button>
        </p>
      </form>
    </details>
  );
};
