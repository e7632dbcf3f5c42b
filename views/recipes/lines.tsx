import type { Decimal } from "decimal.js";
import { additionsTotal, baseIs100, baseTotal } from "../../src/chem/lines.ts";
import { Wide } from "../parts/wide.tsx";
import type { ShownLine } from "./types.ts";

type LineTableProps = { lines: readonly ShownLine[]; caption: string };

/** A recipe's lines: parts by weight, and percent of the base where the base is not 100. */
export const LineTable = ({ lines, caption }: LineTableProps) => {
  const base = lines.filter(({ part }) => part === "base");
  const additions = lines.filter(({ part }) => part === "addition");
  const total = baseTotal(lines);
  const both = !baseIs100(lines);
  const columns = both ? 3 : 2;
  return (
    <Wide label={caption}>
      <table class="lines">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Material</th>
            <th scope="col" class="number">
              Parts
            </th>
            {both ? (
              <th scope="col" class="number">
                % of base
              </th>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {base.map((line) => (
            <Line line={line} total={total} both={both} />
          ))}
          <tr class="total">
            <th scope="row">Base</th>
            <td class="number">{total.toFixed()}</td>
            {both ? <td class="number">100</td> : null}
          </tr>
        </tbody>
        {additions.length > 0 ? (
          <tbody>
            <tr>
              <th scope="rowgroup" colspan={columns} class="group">
                Additions, on top of the base
              </th>
            </tr>
            {additions.map((line) => (
              <Line line={line} total={total} both={both} />
            ))}
            <tr class="total">
              <th scope="row">Altogether</th>
              <td class="number">{total.plus(additionsTotal(lines)).toFixed()}</td>
              {both ? (
                <td class="number">{percent(total.plus(additionsTotal(lines)), total)}</td>
              ) : null}
            </tr>
          </tbody>
        ) : null}
      </table>
    </Wide>
  );
};

type LineProps = { line: ShownLine; total: Decimal; both: boolean };

const Line = ({ line, total, both }: LineProps) => (
  <tr id={`line-${line.position}`}>
    <th scope="row">
      <MaterialLink line={line} />
    </th>
    <td class="number">{line.amount.toFixed()}</td>
    {both ? <td class="number">{percent(line.amount, total)}</td> : null}
  </tr>
);

const percent = (amount: Decimal, total: Decimal): string =>
  amount.times(100).div(total).toDecimalPlaces(2).toFixed();

/** The powder with which analysis the line is worked out, and whether it can still be bought. */
export const MaterialLink = ({ line }: { line: ShownLine }) => (
  <>
    <a href={`/materials/${encodeURIComponent(line.material.slug)}`}>{line.material.name}</a>
    {line.material.stillSold ? null : <strong class="no-longer"> no longer sold</strong>}
    <span class="line-analysis">
      {line.analysis
        ? `${line.analysis.source}${line.analysis.measuredOn ? `, ${line.analysis.measuredOn}` : ""}`
        : "no analysis: left out of the chemistry"}
    </span>
  </>
);
