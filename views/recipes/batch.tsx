import { Field } from "../parts/field.tsx";
import { powderName } from "../parts/powder-name.tsx";
import { besideGrams, poundsOf } from "../parts/weights.ts";
import { LineTable } from "./lines.tsx";
import type { Batch, BatchSheet, ShownRevision } from "./types.ts";

type WeighingProps = { slug: string; revision: ShownRevision; batch: Batch; action: string };

/** What to weigh for a batch of any size, with what the scale is too coarse for. */
export const Weighing = ({ slug, revision, batch, action }: WeighingProps) => (
  <div id="batch">
    <form class="batch-size" method="get" action={`${action}#batch`}>
      {besideGrams() ? (
        <Field
          label="Base to weigh"
          name="pounds"
          value={batch.pounds}
          inputmode="decimal"
          unit="lb"
          hint={batch.sheet ? `${batch.sheet.baseGrams.toFixed()} g on this scale.` : undefined}
          fault={batch.says}
        />
      ) : (
        <Field
          label="Base to weigh"
          name="grams"
          value={batch.grams}
          inputmode="decimal"
          unit="g"
          fault={batch.says}
        />
      )}
      <Field
        label="Scale shows steps of"
        name="scaleGrams"
        value={batch.scaleGrams}
        inputmode="decimal"
        unit="g"
      />
      <button type="submit">Weigh this much</button>
    </form>
    <LineTable
      lines={revision.lines}
      caption={
        batch.sheet
          ? `Revision ${revision.number}, for ${baseWords(batch.sheet)} of base`
          : `Revision ${revision.number}`
      }
      sheet={batch.sheet}
    />
    {batch.sheet ? <TooCoarse sheet={batch.sheet} /> : null}
    <p class="actions">
      <a
        class="button quiet"
        href={`/recipes/${slug}/batch?revision=${revision.number}&amount=${batch.grams}&scaleGrams=${batch.scaleGrams}`}
      >
        A sheet to weigh from
      </a>{" "}
      <a class="button quiet" href={`/recipes/${slug}/handout?revision=${revision.number}`}>
        Handout
      </a>{" "}
      <button type="button" class="quiet" data-print hidden>
        Print this page
      </button>
    </p>
  </div>
);

const baseWords = ({ baseGrams }: BatchSheet): string =>
  besideGrams() ? `${baseGrams.toFixed()} g, ${poundsOf(baseGrams)}` : `${baseGrams.toFixed()} g`;

const TooCoarse = ({ sheet }: { sheet: BatchSheet }) => (
  <>
    {sheet.coarse.map(({ line, percent, smallestGrams }) => (
      <p class="coarse">
        <strong>{powderName(sheet.lines[line]?.line.material.name ?? "")}:</strong> this scale is
        too coarse for so small a batch. The weight is {percent.toDecimalPlaces(1).toFixed()} % off;
        from {smallestGrams.toFixed()} g of base it is within 2 %.
      </p>
    ))}
  </>
);
