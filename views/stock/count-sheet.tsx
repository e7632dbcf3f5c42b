import { type Fault, FaultSummary, Field, faultAt, idOfField } from "../parts/field.tsx";
import { PowderName } from "../parts/powder-name.tsx";
import { When } from "../people/when.tsx";
import { marksOf } from "./lots.tsx";
import type { ShownStock, ShownStockLot } from "./types.ts";
import { gramsWords, lotName } from "./words.ts";

export type CountRow = { material: ShownStock["material"]; lot: ShownStockLot };

type CountSheetProps = {
  rows: readonly CountRow[];
  /** What was typed for a lot, by its place. */
  typed: (place: number) => string;
  why: string;
  faults: readonly Fault[];
  at: Date;
  idempotencyKey: string;
};

/** Every lot that is not used up: to print and fill in by hand, and to enter all at once. */
export const CountSheet = ({ rows, faults, at, ...form }: CountSheetProps) => (
  <section class="count-sheet">
    <h1>Count what is there</h1>
    <p class="print-only">
      As of <When at={at} clock />. Weigh each bag, write down what is in it, and enter it on this
      page.
    </p>
    <FaultSummary faults={faults} />
    {rows.length === 0 ? (
      <p>
        No lot has anything left by record. What is bought next comes here;{" "}
        <a href="/stock">see what there was</a>.
      </p>
    ) : (
      <>
        <p class="screen-only">
          Print this page to take it along. Enter what you weighed: a row that is left empty is not
          counted. All of it is put on record, or none.
        </p>
        <Sheet rows={rows} faults={faults} {...form} />
      </>
    )}
  </section>
);

const Sheet = ({ rows, typed, why, faults, idempotencyKey }: Omit<CountSheetProps, "at">) => (
  <form method="post" action="/stock/counts">
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <table class="lines stacked-lines count-rows">
      <caption>Lots that are not used up, by powder</caption>
      <thead>
        <tr>
          <th scope="col">Lot</th>
          <th scope="col" class="number">
            By record
          </th>
          <th scope="col">Found, g</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, place) => (
          <Row row={row} place={place} value={typed(place)} faults={faults} />
        ))}
      </tbody>
    </table>
    <Field
      label="Why it differs, if you know"
      name="why"
      value={why}
      fault={faultAt(faults, "why")}
      hint="It stands with every lot that you count now."
      maxlength={1000}
      autocomplete="off"
    />
    <p class="actions">
      <button type="submit">Put the counts on record</button>
    </p>
  </form>
);

type RowProps = { row: CountRow; place: number; value: string; faults: readonly Fault[] };

const Row = ({ row: { material, lot }, place, value, faults }: RowProps) => {
  const name = `counts.${place}.grams`;
  const fault = faultAt(faults, name) ?? faultAt(faults, `counts.${place}.lot`);
  const id = idOfField(name);
  return (
    <tr>
      <th scope="row">
        <PowderName name={material.name} />, lot {lotName(lot)}
        {marksOf(lot).map((mark) => (
          <strong class="line-analysis">{mark}</strong>
        ))}
      </th>
      <td class="number" data-head="By record">
        {gramsWords(lot.leftGrams)}
      </td>
      <td>
        <input type="hidden" name={`counts.${place}.lot`} value={lot.id} />
        {fault ? (
          <span class="field-fault" id={`${id}-fault`}>
            <span class="hidden-words">To put right: </span>
            {fault}
          </span>
        ) : null}
        <input
          id={id}
          name={name}
          value={value}
          inputmode="decimal"
          autocomplete="off"
          aria-label={`Found of ${material.name}, lot ${lotName(lot)}, g`}
          aria-describedby={fault ? `${id}-fault` : undefined}
          aria-invalid={fault ? "true" : undefined}
        />
      </td>
    </tr>
  );
};
