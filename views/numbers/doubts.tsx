import type { Account, Doubt, FigureUsed } from "../../src/chem/account.ts";
import { decimalsFor, plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";

type DoubtsProps = { account: Account; nameOf: (line: number) => string; of: string };

/** So many rows, then all others in one. */
const shown = 8;

/** What a number's ± is of: the largest part in a sentence, and all parts in a table. */
export const Doubts = ({ account, nameOf, of }: DoubtsProps) => {
  const { doubts } = account;
  const [largest] = doubts;
  if (!largest) return <p>It has none: nothing that it depends on is in doubt.</p>;
  const rest = doubts.slice(shown).reduce((sum, { share }) => sum + share, 0);
  return (
    <>
      <p>{largestSays(largest, nameOf)}</p>
      <Wide label={`What the ± is of: ${of}`}>
        <table class="figures">
          <caption class="hidden-words">What the ± is of</caption>
          <thead>
            <tr>
              <th scope="col">What is in doubt</th>
              <th scope="col">Part, %</th>
              <th scope="col">By itself, ±</th>
              <th scope="col">Its own ± is</th>
            </tr>
          </thead>
          <tbody>
            {doubts.slice(0, shown).map((doubt) => (
              <tr>
                <th scope="row">{doubtWords(doubt, nameOf)}</th>
                <td>{percentOf(doubt.share)}</td>
                <td>{plainNumber(doubt.plusMinus, decimalsFor(doubt.plusMinus))}</td>
                <td>{kindOf(doubt)}</td>
              </tr>
            ))}
            {rest > 0 ? (
              <tr>
                <th scope="row">all others together</th>
                <td>{percentOf(rest)}</td>
                <td />
                <td />
              </tr>
            ) : null}
          </tbody>
        </table>
      </Wide>
      <p>
        The parts are of its square, since what is independent adds up in squares: twice the ± of
        one figure counts four times.
      </p>
    </>
  );
};

/** “Most of this ± is the SiO2 of Potash feldspar, whose ± was assumed: …” */
function largestSays(doubt: Doubt, nameOf: (line: number) => string): string {
  const part =
    doubt.share > 0.5
      ? "Most of this ±"
      : `The largest part of this ±, ${plainNumber(100 * doubt.share, 0)} %,`;
  const what = doubtWords(doubt, nameOf);
  if (doubt.of === "weighing") {
    return `${part} is the ${what}: a finer scale, or a larger batch, would help most.`;
  }
  return doubt.assumed
    ? `${part} is the ${what}, whose ± was assumed: a measured analysis would help most.`
    : `${part} is the ${what}, whose ± the analysis gives: a closer analysis would help most.`;
}

function doubtWords({ of, line, part }: Doubt, nameOf: (line: number) => string): string {
  const name = nameOf(line);
  if (of === "loss") return `loss of ${name}`;
  if (of !== "weighing") return `${of} of ${name}`;
  return part === "addition" ? `weighing of ${name}, as an addition` : `weighing of ${name}`;
}

const kindOf = ({ of, assumed }: Doubt): string => {
  if (of === "weighing") return "the scale's step";
  return assumed ? "assumed" : "given";
};

/** What is only small is never printed as nothing. */
const percentOf = (share: number): string =>
  share < 0.0005 ? "under 0.1" : plainNumber(100 * share, 1);

/** A figure of an analysis with its ±, and how that is known: “SiO2 66.0 ± 1.9 % (± assumed)”. */
export function figureWords({ of, percent, plusMinus, how }: FigureUsed): string {
  const decimals = plusMinus > 0 ? Math.max(decimalsFor(plusMinus), 2) : 2;
  const doubt = plusMinus > 0 ? `\u00a0±\u00a0${plainNumber(plusMinus, decimals)}` : "";
  const what = of === "rest" ? "not accounted for" : of;
  return `${what} ${plainNumber(percent, decimals)}${doubt}\u00a0%${howWords[how]}`;
}

const howWords: Record<FigureUsed["how"], string> = {
  given: "",
  assumed: " (±\u00a0assumed)",
  exact: " (exact, by formula)",
  rest: " (what is left of 100)",
  none: " (none was given)",
  unknown: " (nothing is known of it)",
};
