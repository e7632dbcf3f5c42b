import { Field } from "../parts/field.tsx";
import { Wide } from "../parts/wide.tsx";
import { MaterialLink } from "./lines.tsx";
import type { Batch } from "./types.ts";

type BatchBoxProps = { batch: Batch; action: string };

/** How much of each to weigh for a batch of any size, with what a scale is too coarse for. */
export const BatchBox = ({ batch, action }: BatchBoxProps) => (
  <div id="batch">
    <form class="batch-size" method="get" action={`${action}#batch`}>
      <Field
        label="Base to weigh"
        name="grams"
        value={batch.grams}
        inputmode="decimal"
        unit="g"
        fault={batch.says}
      />
      <Field
        label="Scale shows steps of"
        name="scaleGrams"
        value={batch.scaleGrams}
        inputmode="decimal"
        unit="g"
      />
      <button type="submit">Weigh this much</button>
    </form>
    {batch.sheet ? <Sheet sheet={batch.sheet} /> : null}
  </div>
);

const Sheet = ({ sheet }: { sheet: NonNullable<Batch["sheet"]> }) => {
  const caption = `To weigh for ${sheet.baseGrams.toFixed()} g of base`;
  const decimals = sheet.scaleGrams.decimalPlaces();
  return (
    <>
      <Wide label={caption}>
        <table class="lines weighing">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Material</th>
              <th scope="col" class="number">
                Weigh, g
              </th>
              <th scope="col" class="number">
                Bucket then holds, g
              </th>
            </tr>
          </thead>
          <tbody>
            {sheet.lines.map(({ line, grams, runningGrams }) => (
              <tr>
                <th scope="row">
                  {line.part === "addition" ? <span class="addition">+ </span> : null}
                  <MaterialLink line={line} />
                </th>
                <td class="number">{grams.toFixed(decimals)}</td>
                <td class="number">{runningGrams.toFixed(decimals)}</td>
              </tr>
            ))}
            <tr class="total">
              <th scope="row">Altogether</th>
              <td class="number">{sheet.totalGrams.toFixed(decimals)}</td>
              <td class="number">{sheet.totalGrams.toFixed(decimals)}</td>
            </tr>
          </tbody>
        </table>
      </Wide>
      {sheet.coarse.map(({ line, percent, smallestGrams }) => (
        <p class="coarse">
          <strong>{sheet.lines[line]?.line.material.name}:</strong> this scale is too coarse for so
          small a batch. The weight is {percent.toDecimalPlaces(1).toFixed()} % off; from{" "}
          {smallestGrams.toFixed()} g of base it is within 2 %.
        </p>
      ))}
    </>
  );
};
