import type { Decimal } from "decimal.js";
import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import type { ShownStock } from "./types.ts";
import { gramsWords } from "./words.ts";

type LineFormProps = {
  item: ShownStock;
  weeks: number;
  typed: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** How much of a powder should always be there, where its use alone does not tell. */
export const LineForm = ({ item, weeks, typed, faults, idempotencyKey }: LineFormProps) => {
  const { material, perWeek } = item;
  const fromUse = perWeek.times(weeks);
  return (
    <section>
      <h1>The least of {material.name}</h1>
      <FaultSummary faults={faults} />
      <p>
        {tenths(perWeek)} a week are used of it; for {weeks} weeks that is {tenths(fromUse)}. Draw
        another line where that is not what you need, such as for a powder that takes months to
        come.
      </p>
      <form method="post" action={`/materials/${material.slug}/stock-line`}>
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <Field
          label="It is low under"
          name="grams"
          value={typed}
          fault={faultAt(faults, "grams")}
          hint="Leave it empty to let its use tell."
          inputmode="decimal"
          autocomplete="off"
          unit="g"
        />
        <p class="actions">
          <button type="submit">Draw the line</button>
          <a href={`/stock#${material.slug}`}>Back to what is in stock</a>
        </p>
      </form>
    </section>
  );
};

const tenths = (grams: Decimal): string => gramsWords(grams.toDecimalPlaces(1));
