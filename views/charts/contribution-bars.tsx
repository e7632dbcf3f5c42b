import { OxideName } from "../parts/oxide.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { Hatched, Hatches, isSolid } from "./hatches.tsx";

/** How one oxide of the glaze is made up: each line's share of it, 0 to 1, together 1. */
export type OxideShares = { oxide: string; shares: readonly { line: string; share: number }[] };

type ContributionBarsProps = { oxides: readonly OxideShares[]; of?: string | undefined };

const size = { width: 340, row: 26, bar: 18, left: 58 };

/**
 * Which line of the recipe brings which oxide: one bar an oxide, cut by share. Each line has a
 * number and a hatch of its own; the same figures stand in the table below.
 */
export const ContributionBars = ({ oxides, of }: ContributionBarsProps) => {
  const lines = linesOf(oxides);
  const height = oxides.length * size.row + 4;
  return (
    <figure class="contributions">
      <figcaption>Which line brings which oxide</figcaption>
      <ol class="contributions-key">
        {lines.map((line, index) => (
          <li>
            <svg class="swatch" width="28" height="18" viewBox="0 0 28 18" aria-hidden="true">
              <Hatched index={index} x={0.5} y={0.5} width={27} height={17} />
            </svg>{" "}
            {index + 1}. {line}
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
        <title>Shares of each oxide by line</title>
        <desc>{oxides.map((oxide) => sayShares(oxide)).join(" ")}</desc>
        <Hatches />
        {oxides.map((oxide, row) => (
          <Bar oxide={oxide} lines={lines} top={row * size.row + 2} />
        ))}
      </svg>
      <details>
        <summary>The same as a table</summary>
        <SharesTable oxides={oxides} lines={lines} of={of} />
      </details>
    </figure>
  );
};

/** The lines in the order in which they are first met. */
const linesOf = (oxides: readonly OxideShares[]): string[] => [
  ...new Set(oxides.flatMap(({ shares }) => shares.map(({ line }) => line))),
];

const percent = (share: number): string => `${plainNumber(share * 100, 0)} %`;

const sayShares = ({ oxide, shares }: OxideShares): string =>
  `${oxide}: ${shares.map(({ line, share }) => `${line} ${percent(share)}`).join(", ")}.`;

type BarProps = { oxide: OxideShares; lines: readonly string[]; top: number };

const Bar = ({ oxide, lines, top }: BarProps) => (
  <>
    <text class="bar-oxide" x={size.left - 8} y={top + 13} text-anchor="end">
      {subscripted(oxide.oxide)}
    </text>
    {piecesOf(oxide).map(({ line, from, share }) => (
      <Piece number={lines.indexOf(line)} from={from} share={share} top={top} />
    ))}
  </>
);

type PieceProps = { number: number; from: number; share: number; top: number };

const Piece = ({ number, from, share, top }: PieceProps) => {
  const whole = size.width - size.left - 2;
  const x = size.left + from * whole;
  const width = share * whole;
  return (
    <>
      <Hatched index={number} x={tidy(x)} y={top} width={tidy(width)} height={size.bar} />
      {width > 18 ? (
        <text
          class={isSolid(number) ? "bar-number bar-number-solid" : "bar-number"}
          x={tidy(x + width / 2)}
          y={top + 13}
          text-anchor="middle"
        >
          {number + 1}
        </text>
      ) : null}
    </>
  );
};

const tidy = (place: number): number => Math.round(place * 100) / 100;

/** Where each piece of a bar begins, 0 to 1 from the left. */
const piecesOf = ({ shares }: OxideShares) => {
  let from = 0;
  return shares.map(({ line, share }) => {
    const piece = { line, share, from };
    from += share;
    return piece;
  });
};

const lowDigits = "₀₁₂₃₄₅₆₇₈₉";

// SVG text knows no <sub>, so the numbers are written as low digits.
const subscripted = (oxide: string): string =>
  oxide.replace(/\d/g, (digit) => lowDigits[Number(digit)] ?? digit);

type SharesTableProps = ContributionBarsProps & { lines: readonly string[] };

const SharesTable = ({ oxides, lines, of }: SharesTableProps) => (
  <Wide label={of ? `Shares of each oxide by line: ${of}` : "Shares of each oxide by line"}>
    <table class="figures">
      <caption class="hidden-words">Percent of each oxide that each line brings</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          {oxides.map(({ oxide }) => (
            <th scope="col">
              <OxideName oxide={oxide} /> %
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr>
            <th scope="row">{line}</th>
            {oxides.map(({ shares }) => (
              <td>{plainNumber(100 * (shares.find((one) => one.line === line)?.share ?? 0), 1)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);
