import type { Decimal } from "decimal.js";
import { DustCaution } from "../parts/cautions.tsx";
import { type Fault, FaultSummary, Field, faultAt, TextArea } from "../parts/field.tsx";
import { LookAlikes, PowderName } from "../parts/powder-name.tsx";
import { besideGrams, poundsColumn, poundsOf } from "../parts/weights.ts";
import { Wide } from "../parts/wide.tsx";

export type TypedBatch = {
  text: string;
  grams: string;
  litres: string;
  specificGravity: string;
  scaleGrams: string;
};

type Batch = {
  lines: readonly {
    line: { name: string; part: "base" | "addition" };
    grams: Decimal;
    runningGrams: Decimal;
  }[];
  baseGrams: Decimal;
  totalGrams: Decimal;
  coarse: readonly { line: number; percent: Decimal; smallestGrams: Decimal }[];
  filled?: { waterGrams: Decimal; says: string } | undefined;
};

type BatchPageProps = { typed: TypedBatch; faults: readonly Fault[]; batch: Batch | undefined };

/** A recipe and a size in, the weights out, for anybody; nothing is stored. */
export const BatchPage = ({ typed, faults, batch }: BatchPageProps) => (
  <article>
    <h1>What to weigh</h1>
    <p>
      The weights of a recipe for a batch of any size. Base lines are rounded to your scale so that
      they add up; nothing is stored.
    </p>
    <form class="sheet screen-only" method="post" action="/batch#weights">
      <FaultSummary faults={faults} />
      <TextArea
        label="Recipe"
        name="text"
        value={typed.text}
        fault={faultAt(faults, "text") ?? faultAt(faults, "lines")}
        hint="A recipe's address, such as slack-water or slack-water@2, or its lines: a name and an amount in each row, additions with a + before them."
        rows={6}
        required
      />
      <Field
        label="Base to weigh"
        name="grams"
        value={typed.grams}
        fault={faultAt(faults, "grams")}
        hint="Additions come on top. Leave empty to fill a bucket instead."
        inputmode="decimal"
        unit="g"
      />
      <Field
        label="Slurry to make"
        name="fill.litres"
        value={typed.litres}
        fault={faultAt(faults, "fill.litres") ?? faultAt(faults, "fill")}
        inputmode="decimal"
        unit="litres"
      />
      <Field
        label="Specific gravity of it"
        name="fill.specificGravity"
        value={typed.specificGravity}
        fault={faultAt(faults, "fill.specificGravity")}
        hint="Kilograms of one litre, as in 1.45."
        inputmode="decimal"
      />
      <Field
        label="Scale shows steps of"
        name="scaleGrams"
        value={typed.scaleGrams}
        fault={faultAt(faults, "scaleGrams")}
        inputmode="decimal"
        unit="g"
        required
      />
      <div class="buttons">
        <button type="submit" class="main">
          Weigh this much
        </button>
      </div>
    </form>
    {batch ? <Weights batch={batch} /> : null}
    <DustCaution />
  </article>
);

const Weights = ({ batch }: { batch: Batch }) => (
  <section id="weights" role="status">
    <Wide label="The weights as a table">
      <table class="figures">
        <caption>For {batch.baseGrams.toFixed()} g of base</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col">Weigh</th>
            {besideGrams() ? <th scope="col">In lb and oz</th> : null}
            <th scope="col">Bucket holds</th>
          </tr>
        </thead>
        <tbody>
          {batch.lines.map(({ line, grams, runningGrams }, place) => (
            <tr>
              <th scope="row">
                <PowderName name={line.name} />
                {line.part === "addition" ? ", on top" : ""}
              </th>
              <td>{grams.toFixed()} g</td>
              {besideGrams() ? (
                <td>{poundsColumn(batch.lines.map((each) => each.grams))[place]}</td>
              ) : null}
              <td>{runningGrams.toFixed()} g</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
    <p>
      <strong>
        {batch.totalGrams.toFixed()} g in all
        {besideGrams() ? `, ${poundsOf(batch.totalGrams)}` : ""}.
      </strong>
      {batch.filled ? (
        <>
          {" "}
          <strong>Water: {batch.filled.waterGrams.toFixed()} g,</strong> the last of it slowly.{" "}
          {batch.filled.says}
        </>
      ) : null}
    </p>
    <LookAlikes names={batch.lines.map(({ line }) => line.name)} />
    {batch.coarse.map(({ line, percent, smallestGrams }) => (
      <p class="coarse">
        <strong>{batch.lines[line]?.line.name}:</strong> this scale is too coarse for so small a
        batch. The weight is {percent.toDecimalPlaces(1).toFixed()} % off; from{" "}
        {smallestGrams.toFixed()} g of base it is within 2 %.
      </p>
    ))}
  </section>
);
