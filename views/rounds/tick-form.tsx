type TickFormProps = {
  /** Of the bucket. */
  id: string;
  typed: (path: string) => string;
  faults: readonly { path: string; says: string }[];
  idempotencyKey: string;
};

/** One tick, and what was measured with it where somebody did. */
export const TickForm = ({ id, typed, faults, idempotencyKey }: TickFormProps) => (
  <form method="post" action="/rounds/ticks" class="round-form">
    <input type="hidden" name="bucket" value={id} />
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    {faults.length > 0 ? (
      <div class="faults" role="alert">
        {faults.map(({ says }) => (
          <p>{says}</p>
        ))}
      </div>
    ) : null}
    <details open={faults.length > 0}>
      <summary>Measure it too</summary>
      <div class="care-fields">
        {fields.map(({ name, label }) => (
          <label class="field">
            {label}
            <input
              name={name}
              value={typed(name)}
              inputmode="decimal"
              autocomplete="off"
              aria-invalid={faults.some(({ path }) => path === name) ? "true" : undefined}
            />
          </label>
        ))}
        <label class="field">
          Note
          <input name="note" value={typed("note")} maxlength={1000} autocomplete="off" />
        </label>
      </div>
    </details>
    <p class="actions">
      <button type="submit" name="stirred" value="true">
        Stirred
      </button>
      <button type="submit" class="quiet" name="stirred" value="false">
        Looked at, not stirred
      </button>
    </p>
  </form>
);

const fields = [
  { name: "specificGravity", label: "Specific gravity" },
  { name: "litres", label: "In it now, litres" },
  { name: "flowSeconds", label: "Flow, s" },
];
