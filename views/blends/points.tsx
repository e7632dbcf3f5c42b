import type { Decimal } from "decimal.js";
import type { BlendKind } from "../../src/chem/blends.ts";
import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import { tileMark } from "../../src/chem/tile-marks.ts";
import { type ShownValue, shownValueOf } from "../../src/chem/trial-values.ts";
import { Quantity } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { ScreenWord } from "./screen.tsx";
import { batchWords, shareWords } from "./words.ts";

export type ShownPoint = {
  n: number;
  at: readonly number[];
  lines: readonly { name: string; part: "base" | "addition"; amount: Decimal }[];
  chemistry: Chemistry;
};

type PointTableProps = {
  kind: BlendKind;
  points: readonly ShownPoint[];
  value: ShownValue;
  /** Where a point has a page of its own. */
  hrefOf?: ((n: number) => string) | undefined;
  /** What its tile carries, where that is more than its kind and number. */
  markOf?: ((n: number) => string) | undefined;
};

/** Every point in a row: its mark, where it lies, what it is made of, a value, and the screen. */
export const PointTable = ({
  kind,
  points,
  value,
  hrefOf,
  markOf = (n) => tileMark(kind, n),
}: PointTableProps) => (
  <Wide label="The points as a table">
    <table class="figures points">
      <caption>The points, each at a base of 100</caption>
      <thead>
        <tr>
          <th scope="col">Tile</th>
          <th scope="col">{kind === "ladder" ? "On top" : "Shares, %"}</th>
          <th scope="col">
            {value.says}
            {value.unit ? `, ${value.unit}` : ""}
          </th>
          <th scope="col">Screen</th>
          <th scope="col">Recipe</th>
        </tr>
      </thead>
      <tbody>
        {points.map(({ n, at, lines, chemistry }) => (
          <tr>
            <th scope="row">{hrefOf ? <a href={hrefOf(n)}>{markOf(n)}</a> : markOf(n)}</th>
            <td>{shareWords(kind, at)}</td>
            <td>
              <Quantity {...(shownValueOf(chemistry, value.name) ?? { value: null })} />
            </td>
            <td>
              <ScreenWord findings={chemistry.findings} />
            </td>
            <td>{batchWords(lines)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);
