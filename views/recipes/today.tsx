import type { Difference } from "../../src/chem/differences.ts";
import { moveWords } from "../../src/chem/move-words.ts";
import type { Move } from "../../src/chem/moves.ts";
import { OxideName } from "../parts/oxide.tsx";
import { decimalsFor, plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";

type Analysed = { source: string; measuredOn: string | null } | null;

export type ShownPowderChange = {
  powders: readonly {
    material: { slug: string; name: string };
    pinned: Analysed;
    inUse: Analysed;
  }[];
  differences: readonly Difference[];
  moves: readonly Move[];
};

/** What the analyses in use now make of a revision that is pinned to others. */
export const Today = ({ change, of }: { change: ShownPowderChange; of: string }) => (
  <div class="today">
    <ul>
      {change.powders.map(({ material, pinned, inUse }) => (
        <li>
          <a href={`/materials/${material.slug}`}>{material.name}</a>: published with{" "}
          {named(pinned)}; in use now is {named(inUse)}.
        </li>
      ))}
    </ul>
    <Moves moves={change.moves} />
    <Differences differences={change.differences} of={of} />
  </div>
);

const named = (analysis: Analysed): string => {
  if (!analysis) return "no analysis";
  return analysis.measuredOn ? `${analysis.source} of ${analysis.measuredOn}` : analysis.source;
};

const Moves = ({ moves }: { moves: readonly Move[] }) =>
  moves.length === 0 ? (
    <p>Nothing moves further than an approval bears.</p>
  ) : (
    <>
      <p>
        <strong>It is not quite the same glaze any more.</strong> Fire a tile from today's powders
        before you rely on it:
      </p>
      <MoveList moves={moves} />
    </>
  );

/** What moved further than an approval bears, each in words. */
export const MoveList = ({ moves }: { moves: readonly Move[] }) => (
  <ul>
    {moves.map((move) => (
      <li>{moveWords(move)}</li>
    ))}
  </ul>
);

const Differences = ({ differences, of }: { differences: readonly Difference[]; of: string }) => {
  const caption = `Unity formula of ${of}, as published and with today's powders`;
  return (
    <Wide label={caption}>
      <table class="figures">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Oxide</th>
            <th scope="col">Published</th>
            <th scope="col">Today</th>
            <th scope="col">Differs by</th>
          </tr>
        </thead>
        <tbody>
          {differences.map((row) => (
            <tr>
              <th scope="row">
                <OxideName oxide={row.of} />
              </th>
              <td>{plainNumber(row.before, 3)}</td>
              <td>{plainNumber(row.after, 3)}</td>
              <td>{differenceWords(row)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

/** Never "none": what is within the doubt of the difference cannot be told apart. */
function differenceWords({ difference, plusMinus }: Difference): string {
  if (Math.abs(difference) <= plusMinus) return "cannot be told apart";
  const decimals = Math.min(Math.max(decimalsFor(plusMinus), 3), 6);
  const sign = difference < 0 ? "" : "+";
  return `${sign}${plainNumber(difference, decimals)} ± ${plainNumber(plusMinus, decimals)}`;
}
