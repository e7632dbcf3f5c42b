import { numberWords } from "../numbers/words.ts";
import { OxideName } from "../parts/oxide.tsx";
import { PowderName } from "../parts/powder-name.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { type ShownChange, type ShownComparison, type ShownSide, sideName } from "./types.ts";
import { analysisWords, changeWords, differenceWords, partsWords } from "./words.ts";

type TablesProps = { left: ShownSide; right: ShownSide; comparison: ShownComparison };

/** What heads the columns of the one and the other. */
type Names = { left: string; right: string };

/** Two revisions in lines, in powders and in chemistry. */
export const ComparisonTables = ({ left, right, comparison }: TablesProps) => {
  const names = { left: sideName(left), right: sideName(right) };
  return (
    <>
      <h2>Lines</h2>
      <LinesBeside names={names} lines={comparison.lines} />
      <h2>Powders</h2>
      <OtherAnalyses names={names} analyses={comparison.otherAnalyses} />
      <h2>Chemistry</h2>
      <UnityBeside names={names} differences={comparison.differences} />
      <FiguresBeside names={names} figures={comparison.figures} />
    </>
  );
};

/** Two recipes line by line. */
export const LinesBeside = ({ names, lines }: { names: Names; lines: readonly ShownChange[] }) => {
  const caption = "Lines, each recipe at a base of 100";
  const additions = lines.filter(({ part }) => part === "addition");
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines">
        <caption>{caption}</caption>
        <Head names={names} of="Material" />
        <tbody>
          {lines
            .filter(({ part }) => part === "base")
            .map((line) => (
              <Line line={line} />
            ))}
        </tbody>
        {additions.length > 0 ? (
          <tbody>
            <tr>
              <th scope="rowgroup" colspan={4} class="group">
                Additions, on top of the base
              </th>
            </tr>
            {additions.map((line) => (
              <Line line={line} />
            ))}
          </tbody>
        ) : null}
      </table>
    </Wide>
  );
};

const Head = ({ names, of }: { names: Names; of: string }) => (
  <thead>
    <tr>
      <th scope="col">{of}</th>
      <th scope="col" class="number">
        {names.left}
      </th>
      <th scope="col" class="number">
        {names.right}
      </th>
      <th scope="col">What became of it</th>
    </tr>
  </thead>
);

const Line = ({ line }: { line: ShownChange }) => (
  <tr class={line.is === "same" ? undefined : "compare-changed"}>
    <th scope="row">
      <a href={`/materials/${line.material.slug}`}>
        <PowderName name={line.material.name} />
      </a>
    </th>
    <td class="number">{line.left ? partsWords(line.left) : "not in it"}</td>
    <td class="number">{line.right ? partsWords(line.right) : "not in it"}</td>
    <td class="compare-words">{changeWords(line)}</td>
  </tr>
);

type OtherAnalysesProps = { names: Names; analyses: ShownComparison["otherAnalyses"] };

const OtherAnalyses = ({ names, analyses }: OtherAnalysesProps) =>
  analyses.length === 0 ? (
    <p>Every powder that both have is pinned to one analysis in both.</p>
  ) : (
    <ul>
      {analyses.map((each) => (
        <li>
          <a href={`/materials/${each.material.slug}`}>
            <PowderName name={each.material.name} />
          </a>
          : {names.left} is pinned to {analysisWords(each.left)}; {names.right} to{" "}
          {analysisWords(each.right)}.
        </li>
      ))}
    </ul>
  );

type ChemistryProps = { names: Names } & Pick<ShownComparison, "differences">;

/** Two unity formulas, oxide by oxide. */
export const UnityBeside = ({ names, differences }: ChemistryProps) => {
  if (differences.length === 0)
    return <p>One of the two has no flux, so there are no two unity formulas to compare.</p>;
  const caption = "Unity formulas, with the ± of each difference";
  return (
    <>
      <Wide label={caption}>
        <table class="lines stacked-lines">
          <caption>{caption}</caption>
          <Head names={names} of="Oxide" />
          <tbody>
            {differences.map((row) => (
              <tr>
                <th scope="row">
                  <OxideName oxide={row.of} />
                </th>
                <td class="number">{plainNumber(row.before, 3)}</td>
                <td class="number">{plainNumber(row.after, 3)}</td>
                <td class="compare-words">{differenceWords(row)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <p>
        The ± is of the difference itself: an analysis that both share counts once. What cannot be
        told apart by it may still differ; lines that were changed are named above.
      </p>
    </>
  );
};

type FiguresProps = { names: Names } & Pick<ShownComparison, "figures">;

/** Ratios, loss and expansion of two recipes. */
export const FiguresBeside = ({ names, figures }: FiguresProps) => {
  if (figures.length === 0) return null;
  const caption = "Ratios, loss and expansion, with the ± of each difference";
  return (
    <>
      <Wide label={caption}>
        <table class="lines stacked-lines">
          <caption>{caption}</caption>
          <Head names={names} of="Figure" />
          <tbody>
            {figures.map((row) => (
              <tr>
                <th scope="row">{numberWords(row.of)}</th>
                <td class="number">{plainNumber(row.before, 2)}</td>
                <td class="number">{plainNumber(row.after, 2)}</td>
                <td class="compare-words">{differenceWords(row)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <p>
        Loss is in percent of the batch, expansion in 10⁻⁶/K by each model; a difference by one
        model says which of the two is higher, and nothing of fit.
      </p>
    </>
  );
};
