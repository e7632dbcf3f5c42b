import type { Child } from "hono/jsx";
import { differenceWords } from "../compare/words.ts";
import { OxideName } from "../parts/oxide.tsx";
import { PowderName } from "../parts/powder-name.tsx";
import { Wide } from "../parts/wide.tsx";
import type { MixPageProps } from "./types.ts";
import { chemistryWords, correctionWords } from "./words.ts";

type CorrectionProps = Pick<
  MixPageProps,
  "lines" | "tolerancePercent" | "correction" | "slurry" | "chemistry"
>;

/** What is off, how to put it right, and what it does to the glaze as it stands. */
export const Correction = (props: CorrectionProps) => {
  const { lines, tolerancePercent, correction, slurry, chemistry } = props;
  if (correction.kind === "within" && !chemistry) return null;
  return (
    <Section>
      {correction.kind === "within" ? null : (
        <>
          <h2>To put right</h2>
          {correctionWords(lines, correction, slurry).map((says) => (
            <p class="answer">{says}</p>
          ))}
          {correction.kind === "correct" ? (
            <MoreTable lines={lines} corrected={correction.lines} />
          ) : null}
          <p>
            A weight may be off by {tolerancePercent.toFixed()} % of its line; a manager sets that
            for the studio. Or leave it so, and know what it does.
          </p>
        </>
      )}
      {chemistry ? <Chemistry chemistry={chemistry} /> : null}
    </Section>
  );
};

const Section = ({ children }: { children?: Child }) => (
  <section class="mix-correction">{children}</section>
);

type MoreTableProps = {
  lines: MixPageProps["lines"];
  corrected: Extract<MixPageProps["correction"], { kind: "correct" }>["lines"];
};

const MoreTable = ({ lines, corrected }: MoreTableProps) => (
  <Wide label="What to add">
    <table>
      <caption>What to add of each, in grams</caption>
      <thead>
        <tr>
          <th scope="col">Powder</th>
          <th scope="col" class="number">
            In now
          </th>
          <th scope="col" class="number">
            Add
          </th>
          <th scope="col" class="number">
            Then
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map(({ material, put }, place) => (
          <tr>
            <th scope="row">
              <PowderName name={material.name} />
            </th>
            <td class="number">{put?.toFixed() ?? "0"}</td>
            <td class="number">
              <strong>{corrected[place]?.more.toFixed()}</strong>
            </td>
            <td class="number">{corrected[place]?.grams.toFixed()}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const Chemistry = ({ chemistry }: { chemistry: NonNullable<MixPageProps["chemistry"]> }) => (
  <>
    <h2>What it does to the glaze</h2>
    <p class="answer">{chemistryWords(chemistry.moves)}</p>
    {chemistry.differences.length === 0 ? (
      <p>Without a flux there is no unity formula to compare.</p>
    ) : (
      <Wide label="What it does to the unity formula">
        <table>
          <caption>
            Unity formula of what is in, with the rest as planned, against the revision
          </caption>
          <thead>
            <tr>
              <th scope="col">Oxide</th>
              <th scope="col" class="number">
                Recipe
              </th>
              <th scope="col" class="number">
                Bucket
              </th>
              <th scope="col">Difference</th>
            </tr>
          </thead>
          <tbody>
            {chemistry.differences.map((difference) => (
              <tr>
                <th scope="row">
                  <OxideName oxide={difference.of} />
                </th>
                <td class="number">{difference.before.toFixed(3)}</td>
                <td class="number">{difference.after.toFixed(3)}</td>
                <td>{differenceWords(difference)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    )}
  </>
);
