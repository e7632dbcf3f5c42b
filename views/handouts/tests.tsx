import { Day } from "../materials/day.tsx";
import { LeachCaution } from "../parts/cautions.tsx";
import { kindWords } from "../tests/kind-words.ts";
import { LeachLimits } from "../tests/limits.tsx";
import { LeachResults } from "../tests/results.tsx";
import type { ShownPiece } from "./types.ts";
import { untestedWords } from "./words.ts";

/** What was tested, how, where and when, and what was not. */
export const Tests = ({ piece: { tests, untested, withdrawn } }: { piece: ShownPiece }) => (
  <>
    <h3>What was tested, and what was not</h3>
    {tests.length === 0 ? (
      <p>Nothing was tested.</p>
    ) : (
      <ul class="test-list">
        {tests.map((test) => (
          <li class="test">
            <p>
              <strong>
                {kindWords[test.kind].name}: {test.outcome}
              </strong>
              {onTile(test.tile)}, <Day on={test.at} />
              {test.laboratory === "" ? ", no laboratory" : `, ${test.laboratory}`}.
            </p>
            <p>Method: {test.method}</p>
            {test.articleClass === "" ? null : <p>Article: {test.articleClass}.</p>}
            {test.results.length > 0 ? <LeachResults results={test.results} /> : null}
            {test.limits?.chosen ? <LeachLimits limits={test.limits} /> : null}
            {test.remark === "" ? null : <p>{test.remark}</p>}
          </li>
        ))}
      </ul>
    )}
    {untestedWords(untested) ? (
      <p>
        <strong>{untestedWords(untested)}</strong>
      </p>
    ) : null}
    {withdrawn.tests > 0 ? (
      <p>
        {withdrawn.tests === 1 ? "One test was" : `${withdrawn.tests} tests were`} withdrawn and
        left out.
      </p>
    ) : null}
    {tests.some(({ kind }) => kind === "leach") ? <LeachCaution /> : null}
  </>
);

function onTile(tile: ShownPiece["tests"][number]["tile"]): string {
  if (tile === null || tile === "unknown") return ", on no tile of this handout";
  const layered = tile.layered ? ", over another glaze: it speaks for the two together alone" : "";
  return `, on a tile at cone ${tile.cone}, ${tile.atmosphere}${tile.clay === "" ? "" : `, on ${tile.clay}`}${layered}`;
}
