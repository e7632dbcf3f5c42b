import { Decimal } from "decimal.js";
import { bringBaseTo100 } from "../../src/chem/lines.ts";
import { Wide } from "../parts/wide.tsx";
import type { ShownLine } from "./types.ts";

/**
 * As a recipe writes amounts: a base that adds up to 100 in hundredths, without what comes to none of
 * them.
 */
export const asWeighed = (lines: readonly ShownLine[]) => {
  const weighed = lines.map((line) => ({ ...line, amount: new Decimal(line.amount) }));
  return (bringBaseTo100(weighed) ?? weighed)
    .filter(({ amount }) => amount.gt(0))
    .map((line) => ({ ...line, amount: line.amount.toFixed() }));
};

type LinesProps = {
  caption: string;
  lines: readonly ShownLine[];
  /** Whether each powder's analysis and names elsewhere are told. */
  told?: boolean | undefined;
};

/** What to weigh of which powder. */
export const Lines = ({ caption, lines, told }: LinesProps) => (
  <Wide label={caption}>
    <table class="lines">
      <caption>{caption}, % of the base</caption>
      <thead>
        <tr>
          <th scope="col">Powder</th>
          <th scope="col" class="number">
            Amount
          </th>
        </tr>
      </thead>
      <tbody>
        {asWeighed(lines).map((line) => (
          <tr>
            <th scope="row">
              {line.called && line.called.name !== line.name
                ? `${line.called.name} (here: ${line.name})`
                : line.name}
              {line.part === "addition" ? ", on top" : ""}
              {told ? <Told line={line} /> : null}
            </th>
            <td class="number">{line.amount}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const Told = ({ line: { called, analysis } }: { line: ShownLine }) => (
  <>
    {analysis ? (
      <span class="line-analysis">
        {analysis.source}
        {analysis.measuredOn ? `, ${analysis.measuredOn}` : ""}
        {isWords[analysis.is]}
      </span>
    ) : null}
    {called === null ? <span class="line-analysis">no name there is on record</span> : null}
    {called && called.also.length > 0 ? (
      <span class="line-analysis">also {called.also.join(", ")}</span>
    ) : null}
    {called?.caution ? <span class="line-analysis">{called.caution}</span> : null}
    {called?.lookAlikes.map((other) => (
      <span class="line-analysis">
        “{other.word}” is also a name of <a href={`/materials/${other.slug}`}>{other.name}</a>
        {other.region ? ` (${other.region})` : ""}. {other.caution}
      </span>
    ))}
  </>
);

const isWords = {
  "in use": "",
  "of the lot": ", of the newest lot",
  "not this lot": ": not this lot, its ± doubled",
} as const;
