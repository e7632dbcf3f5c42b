import type { Brought } from "../../src/chem/account.ts";
import { Hatched, Hatches, isSolid } from "../charts/hatches.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";

type SharesProps = {
  brings: readonly Brought[];
  nameOf: (line: number) => string;
  /** What the table is of. */
  of: string;
};

const size = { width: 340, row: 26, bar: 18, left: 58 };

/**
 * Which line brings how much of each side of a number: one bar a side, cut by share, each line with
 * a number and a hatch of its own, and the same as a table. A line that takes away instead of
 * bringing cannot be drawn: then the table stands alone.
 */
export const Shares = ({ brings, nameOf, of }: SharesProps) => {
  const lines = [...new Set(brings.flatMap((side) => side.lines.map(({ line }) => line)))].sort(
    (a, b) => a - b,
  );
  const drawable = brings.every((side) => side.lines.every(({ share }) => share >= 0));
  return (
    <figure class="contributions">
      {drawable ? (
        <Drawing brings={brings} lines={lines} nameOf={nameOf} />
      ) : (
        <p>A line takes away here instead of bringing, so this is a table and not a drawing.</p>
      )}
      <SharesTable brings={brings} lines={lines} nameOf={nameOf} of={of} />
    </figure>
  );
};

type DrawingProps = Omit<SharesProps, "of"> & { lines: readonly number[] };

const Drawing = ({ brings, lines, nameOf }: DrawingProps) => {
  const height = brings.length * size.row + 4;
  return (
    <>
      <ol class="contributions-key">
        {lines.map((line, index) => (
          <li>
            <svg class="swatch" width="28" height="18" viewBox="0 0 28 18" aria-hidden="true">
              <Hatched index={index} x={0.5} y={0.5} width={27} height={17} />
            </svg>{" "}
            {index + 1}. {nameOf(line)}
          </li>
        ))}
      </ol>
      <svg
        class="contributions-drawing"
        viewBox={`0 0 ${size.width} ${height}`}
        width={size.width}
        height={height}
        role="img"
      >
        <title>Which line brings how much</title>
        <desc>{brings.map((side) => sayShares(side, nameOf)).join(" ")}</desc>
        <Hatches />
        {brings.map((side, row) => (
          <Bar side={side} lines={lines} top={row * size.row + 2} />
        ))}
      </svg>
    </>
  );
};

const sayShares = ({ of, lines }: Brought, nameOf: (line: number) => string): string =>
  `${of}: ${lines.map(({ line, share }) => `${nameOf(line)} ${plainNumber(100 * share, 0)} %`).join(", ")}.`;

type BarProps = { side: Brought; lines: readonly number[]; top: number };

const Bar = ({ side, lines, top }: BarProps) => (
  <>
    <text class="bar-oxide" x={size.left - 8} y={top + 13} text-anchor="end">
      {subscripted(side.of)}
    </text>
    {piecesOf(side).map(({ line, from, share }) => (
      <Piece index={lines.indexOf(line)} from={from} share={share} top={top} />
    ))}
  </>
);

type PieceProps = { index: number; from: number; share: number; top: number };

const Piece = ({ index, from, share, top }: PieceProps) => {
  const whole = size.width - size.left - 2;
  const [x, width] = [size.left + from * whole, share * whole];
  return (
    <>
      <Hatched index={index} x={tidy(x)} y={top} width={tidy(width)} height={size.bar} />
      {width > 18 ? (
        <text
          class={isSolid(index) ? "bar-number bar-number-solid" : "bar-number"}
          x={tidy(x + width / 2)}
          y={top + 13}
          text-anchor="middle"
        >
          {index + 1}
        </text>
      ) : null}
    </>
  );
};

const tidy = (place: number): number => Math.round(place * 100) / 100;

/** Where each piece of a bar begins, 0 to 1 from the left. */
const piecesOf = ({ lines }: Brought) => {
  let from = 0;
  return lines.map(({ line, share }) => {
    const piece = { line, share, from };
    from += share;
    return piece;
  });
};

const lowDigits = "₀₁₂₃₄₅₆₇₈₉";

// SVG text knows no <sub>, so the numbers are written as low digits.
const subscripted = (oxide: string): string =>
  oxide.replace(/\d/g, (digit) => lowDigits[Number(digit)] ?? digit);

type SharesTableProps = SharesProps & { lines: readonly number[] };

const SharesTable = ({ brings, lines, nameOf, of }: SharesTableProps) => (
  <Wide label={`Which line brings how much: ${of}`}>
    <table class="figures">
      <caption class="hidden-words">Which line brings how much</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          {brings.map(({ of: side }) => (
            <th scope="col">
              <OxideName oxide={side} />, %
            </th>
          ))}
          {brings.filter(isAmount).map((side) => (
            <th scope="col">
              <OxideName oxide={side.of} />, {side.measure === "moles" ? "mol" : "parts"}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr>
            <th scope="row">{nameOf(line)}</th>
            {brings.map((side) => (
              <td>{shareWords(side, line)}</td>
            ))}
            {brings.filter(isAmount).map((side) => (
              <td>{amountWords(side, line)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

/** What a model's factors make of a line has no measure of its own. */
const isAmount = ({ measure }: Brought): boolean => measure !== "1e-6/K";

const partOf = ({ lines }: Brought, line: number) => lines.find((one) => one.line === line);

function shareWords(side: Brought, line: number): string {
  const part = partOf(side, line);
  return part ? plainNumber(100 * part.share, 1) : "none";
}

function amountWords(side: Brought, line: number): string {
  const part = partOf(side, line);
  return part ? plainNumber(part.amount, side.measure === "moles" ? 4 : 2) : "none";
}
