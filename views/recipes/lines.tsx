import type { Decimal } from "decimal.js";
import { additionsTotal, baseIs100, baseTotal } from "../../src/chem/lines.ts";
import { LookAlikes, PowderName } from "../parts/powder-name.tsx";
import { besideGrams, poundsByPart, poundsOf } from "../parts/weights.ts";
import { Wide } from "../parts/wide.tsx";
import type { BatchSheet, ShownLine } from "./types.ts";

type LineTableProps = {
  lines: readonly ShownLine[];
  caption: string;
  /** The weights of a batch, for a table to weigh from. */
  sheet?: BatchSheet | undefined;
  /** Whether a line leads to its powder's page, for who may read that. */
  linked?: boolean | undefined;
};

type Column = {
  heading: string;
  of: (line: ShownLine, place: number) => string;
  base: string;
  all: string;
};

/**
 * A recipe's lines: parts by weight, percent of the base where the base is not 100, and the weights
 * of a batch where one is given.
 */
export const LineTable = ({ lines, caption, sheet, linked = true }: LineTableProps) => {
  const numbered = lines.map((line, place) => ({ line, place }));
  const base = numbered.filter(({ line }) => line.part === "base");
  const additions = numbered.filter(({ line }) => line.part === "addition");
  const columns = columnsOf(lines, sheet);
  return (
    <>
      <Wide label={caption}>
        <table class={sheet ? "lines weighing" : "lines"}>
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Material</th>
              {columns.map(({ heading }) => (
                <th scope="col" class="number">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {base.map((row) => (
              <Line {...row} columns={columns} linked={linked} />
            ))}
            <tr class="total">
              <th scope="row">Base</th>
              {columns.map((column) => (
                <td class="number">{column.base}</td>
              ))}
            </tr>
          </tbody>
          {additions.length > 0 ? (
            <tbody>
              <tr>
                <th scope="rowgroup" colspan={columns.length + 1} class="group">
                  Additions, on top of the base
                </th>
              </tr>
              {additions.map((row) => (
                <Line {...row} columns={columns} linked={linked} />
              ))}
              <tr class="total">
                <th scope="row">Altogether</th>
                {columns.map((column) => (
                  <td class="number">{column.all}</td>
                ))}
              </tr>
            </tbody>
          ) : null}
        </table>
      </Wide>
      <LookAlikes names={lines.map(({ material }) => material.name)} />
    </>
  );
};

type LineProps = {
  line: ShownLine;
  place: number;
  columns: readonly Column[];
  linked: boolean;
};

const Line = ({ line, place, columns, linked }: LineProps) => (
  <tr id={`line-${line.position}`}>
    <th scope="row">
      {linked ? (
        <a href={`/materials/${encodeURIComponent(line.material.slug)}`}>
          <PowderName name={line.material.name} />
        </a>
      ) : (
        <PowderName name={line.material.name} />
      )}
      {line.material.stillSold ? null : <strong class="no-longer"> no longer sold</strong>}
      <span class="line-analysis">{analysisWords(line)}</span>
    </th>
    {columns.map((column) => (
      <td class="number">{column.of(line, place)}</td>
    ))}
  </tr>
);

/** Which analysis the line is worked out with: the same name can stand for another powder. */
const analysisWords = ({ analysis }: ShownLine): string => {
  if (!analysis) return "no analysis: left out of the chemistry";
  return analysis.measuredOn ? `${analysis.source}, ${analysis.measuredOn}` : analysis.source;
};

function columnsOf(lines: readonly ShownLine[], sheet: BatchSheet | undefined): Column[] {
  const base = baseTotal(lines);
  const all = base.plus(additionsTotal(lines));
  const parts = {
    heading: "Parts",
    of: ({ amount }: ShownLine) => amount.toFixed(),
    base: base.toFixed(),
    all: all.toFixed(),
  };
  const percent = (amount: Decimal) => amount.times(100).div(base).toDecimalPlaces(2).toFixed();
  const percents = {
    heading: "% of base",
    of: ({ amount }: ShownLine) => percent(amount),
    base: "100",
    all: percent(all),
  };
  return [parts, ...(baseIs100(lines) ? [] : [percents]), ...(sheet ? weights(sheet) : [])];
}

function weights({ lines, baseGrams, totalGrams, scaleGrams }: BatchSheet): Column[] {
  const shown = (grams: Decimal | undefined) => grams?.toFixed(scaleGrams.decimalPlaces()) ?? "";
  const pounds = poundsByPart(lines.map(({ line: { part }, grams }) => ({ part, grams })));
  return [
    {
      heading: "Weigh, g",
      of: (_, place) => shown(lines[place]?.grams),
      base: shown(baseGrams),
      all: shown(totalGrams),
    },
    ...(besideGrams()
      ? [
          {
            heading: "In lb and oz",
            of: (_: ShownLine, place: number) => pounds[place] ?? "",
            base: poundsOf(baseGrams),
            all: poundsOf(totalGrams),
          },
        ]
      : []),
    {
      heading: "Bucket then holds, g",
      of: (_, place) => shown(lines[place]?.runningGrams),
      base: "",
      all: "",
    },
  ];
}
