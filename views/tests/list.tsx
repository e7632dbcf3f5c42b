import { DayOf } from "../tiles/day.tsx";
import { Withdrawn } from "../tiles/gallery.tsx";
import { kindWords } from "./kind-words.ts";
import { LeachLimits } from "./limits.tsx";
import { LeachResults } from "./results.tsx";
import type { ShownTest } from "./types.ts";

type TestListProps = {
  tests: readonly ShownTest[];
  /** Where one more is put on record; nothing where the reader may not. */
  addAt: string | undefined;
  /** The recipe and revision that is looked at: tests made for another say so. */
  here?: { slug: string; number: number } | undefined;
};

/** What was done to tiles of one melt and what came of it; what was withdrawn stays, with the reason. */
export const TestList = ({ tests, addAt, here }: TestListProps) => (
  <div class="tests">
    {tests.length === 0 ? (
      <p>Nothing was tested: no acid, alkali, dishwasher or leach test is on record.</p>
    ) : (
      <>
        {tests.some(isHomeAcid) && !tests.some(isLeach) ? (
          <p>An acid test at home is not a leach test, and no leach test is on record.</p>
        ) : null}
        <ul class="test-list">
          {tests.map((test) => (
            <li class={test.withdrawn ? "test test-withdrawn" : "test"}>
              <TestLine test={test} here={here} />
            </li>
          ))}
        </ul>
      </>
    )}
    {addAt ? (
      <p class="actions">
        <a class="button quiet" href={addAt}>
          Add a test
        </a>
      </p>
    ) : null}
  </div>
);

const isHomeAcid = ({ kind, withdrawn }: ShownTest): boolean => kind === "acid" && !withdrawn;
const isLeach = ({ kind, withdrawn }: ShownTest): boolean => kind === "leach" && !withdrawn;

const TestLine = ({ test, here }: { test: ShownTest; here: TestListProps["here"] }) => {
  const Words = test.withdrawn ? "s" : "span";
  return (
    <>
      <p class="test-outcome">
        <Words>
          <a class="test-name" href={`/tests/${test.id}`}>
            {kindWords[test.kind].name}
          </a>
          : <strong>{test.outcome}</strong>
          <OnTile tile={test.tile} />
        </Words>
      </p>
      {test.withdrawn ? <Withdrawn {...test.withdrawn} /> : null}
      <p>
        {test.laboratory === "" ? "" : `${test.laboratory}: `}
        {test.method}
      </p>
      {test.results.length > 0 ? <LeachResults results={test.results} /> : null}
      <LeachLimits limits={test.limits} />
      {test.remark === "" ? null : <p>{test.remark}</p>}
      {here && (test.recipe.slug !== here.slug || test.number !== here.number) ? (
        <p>
          Made for{" "}
          <a href={`/recipes/${test.recipe.slug}/revisions/${test.number}`}>
            {test.recipe.name}, revision {test.number}
          </a>
          , which is the same melt.
        </p>
      ) : null}
      <p class="gallery-who">
        Added by {test.by.name}, <DayOf at={test.at} />.
      </p>
    </>
  );
};

/** Which tile it was made on, and why it may speak for less than it seems to. */
export const OnTile = ({ tile }: Pick<ShownTest, "tile">) => {
  if (tile === null) return <>, on no tile of this library</>;
  if (tile === "unknown") return <>, on a tile that is not shown to you</>;
  return (
    <>
      , on{" "}
      <a href={`/tiles/${tile.id}`}>
        the tile at cone {tile.cone}, {tile.atmosphere}
        {tile.clay === "" ? "" : `, on ${tile.clay}`}
      </a>
      {tile.layered ? ", which lies over another glaze: it speaks for that pair alone" : ""}
      {tile.withdrawn ? ", which was withdrawn" : ""}
    </>
  );
};
