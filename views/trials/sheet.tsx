import type { Decimal } from "decimal.js";
import type { Finding } from "../../src/chem/chemistry-types.ts";
import { cornerNames, shareWords } from "../blends/words.ts";
import { DustCaution } from "../parts/cautions.tsx";
import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";
import { Findings } from "../parts/findings.tsx";
import { LookAlikes, PowderName } from "../parts/powder-name.tsx";
import { besideGrams, poundsColumn, poundsOf } from "../parts/weights.ts";
import { Stocks, type StocksProps } from "./stocks.tsx";
import { type ShownTrial, trialHref } from "./types.ts";

type Row = {
  n: number;
  at: readonly number[];
  mark: string;
  smallestGrams: Decimal;
  batch: {
    lines: readonly { line: { name: string; part: "base" | "addition" }; grams: Decimal }[];
    totalGrams: Decimal;
  };
};

type TrialSheetProps = {
  trial: ShownTrial;
  typed: { grams: string; scaleGrams: string; error: string };
  faults: readonly Fault[];
  /** What its powders ask for in the room. */
  handling: readonly Finding[];
  sheet:
    | ({
        grams: Decimal;
        scaleGrams: Decimal;
        errorPercent: Decimal;
        smallestGrams: Decimal;
        points: readonly Row[];
      } & Omit<StocksProps, "trial" | "scaleGrams">)
    | undefined;
};

/** What to weigh for every point of a trial, in an order that saves washing, to print and to tick. */
export const TrialSheet = ({ trial, typed, faults, sheet, handling }: TrialSheetProps) => (
  <article id="weigh-sheet">
    <h1>To weigh: {trial.name}</h1>
    <p class="screen-only">
      <a class="kiln-way" href={trialHref(trial)}>
        Back to the trial
      </a>
    </p>
    <form class="batch-size" method="get" action={`${trialHref(trial)}/sheet`}>
      <FaultSummary faults={faults} />
      <Field
        label="Base for each point"
        name="grams"
        value={typed.grams}
        fault={faultAt(faults, "grams")}
        inputmode="decimal"
        unit="g"
      />
      <Field
        label="Scale shows steps of"
        name="scaleGrams"
        value={typed.scaleGrams}
        fault={faultAt(faults, "scaleGrams")}
        inputmode="decimal"
        unit="g"
      />
      <Field
        label="A weight may be off by"
        name="error"
        value={typed.error}
        fault={faultAt(faults, "error")}
        inputmode="decimal"
        unit="%"
      />
      <button type="submit">Weigh this much</button>
    </form>
    {sheet ? <Weights trial={trial} sheet={sheet} /> : null}
    <h2>What to be careful with</h2>
    <Findings findings={handling} />
    <DustCaution />
  </article>
);

const Weights = ({
  trial,
  sheet,
}: {
  trial: ShownTrial;
  sheet: NonNullable<TrialSheetProps["sheet"]>;
}) => (
  <>
    <p>
      {sheet.grams.toFixed()} g of base{besideGrams() ? `, ${poundsOf(sheet.grams)},` : null} for
      each point, on a scale with steps of {sheet.scaleGrams.toFixed()} g. In this order: little on
      top before much, so that a mortar need only be washed when you go back to a paler one. Scratch
      the mark into each tile before it is glazed.
    </p>
    <p>
      {sheet.smallestGrams.gt(sheet.grams) ? (
        <>
          <strong>
            This scale weighs every line of every point to {sheet.errorPercent.toFixed()} % from{" "}
            {sheet.smallestGrams.toFixed()} g of base on.
          </strong>{" "}
          Below that, weights marked “too little” are further off.
        </>
      ) : (
        <>
          This scale weighs every line to {sheet.errorPercent.toFixed()} % from{" "}
          {sheet.smallestGrams.toFixed()} g of base on, so this is enough.
        </>
      )}
    </p>
    <Stocks
      trial={trial}
      scaleGrams={sheet.scaleGrams}
      stocks={sheet.stocks}
      without={sheet.without}
    />
    <button type="button" class="quiet" data-print hidden>
      Print this sheet
    </button>
    <LookAlikes
      names={sheet.points.flatMap(({ batch }) => batch.lines.map(({ line }) => line.name))}
    />
    <div class="weigh-points">
      {sheet.points.map((row) => (
        <WeighPoint row={row} trial={trial} tooLittle={tooLittleAt(row.n, sheet)} />
      ))}
    </div>
  </>
);

const WeighPoint = ({
  row,
  trial,
  tooLittle,
}: {
  row: Row;
  trial: ShownTrial;
  tooLittle: ReadonlySet<string>;
}) => {
  const pounds = poundsColumn(row.batch.lines.map(({ grams }) => grams));
  return (
    <section class="weigh-point">
      <h2>
        {row.mark} <span class="weigh-share">{shareWords(trial.kind, row.at)}</span>
      </h2>
      {trial.measure === "slurry volume" ? (
        <p>Of every 100 ml: {volumesOf(row.at)}. Dry, that is:</p>
      ) : null}
      <table class="figures">
        <caption class="hidden-words">What to weigh for {row.mark}</caption>
        <tbody>
          {row.batch.lines.map(({ line, grams }, place) => {
            const isTooLittle = line.part === "addition" && tooLittle.has(line.name);
            return (
              <tr>
                <th scope="row">
                  <span class="weigh-tick" aria-hidden="true" />
                  {line.part === "addition" ? "+ " : ""}
                  <PowderName name={line.name} />
                </th>
                <td>
                  {grams.toFixed()} g{isTooLittle ? <em> too little, see above</em> : null}
                </td>
                {besideGrams() ? <td>{pounds[place]}</td> : null}
              </tr>
            );
          })}
          <tr class="weigh-total">
            <th scope="row">In all</th>
            <td>{row.batch.totalGrams.toFixed()} g</td>
            {besideGrams() ? <td>{poundsOf(row.batch.totalGrams)}</td> : null}
          </tr>
        </tbody>
      </table>
    </section>
  );
};

const volumesOf = (at: readonly number[]): string =>
  at
    .map((share, corner) => ({ name: cornerNames[corner], ml: Number((share * 100).toFixed(1)) }))
    .filter(({ ml }) => ml > 0)
    .map(({ name, ml }) => `${ml} ml of ${name}`)
    .join(", ");

/** The additions of a point that this scale cannot weigh as they are. */
const tooLittleAt = (n: number, { stocks, without }: Omit<StocksProps, "trial" | "scaleGrams">) =>
  new Set([
    ...stocks
      .filter(({ takes }) => takes.some((take) => take.n === n))
      .map((s) => s.colourant.name),
    ...without.filter(({ points }) => points.includes(n)).map((w) => w.colourant.name),
  ]);
