import type { Expansion } from "../../src/chem/chemistry-types.ts";
import { expansionSpread } from "../../src/chem/expansion-comparison.ts";
import { type AskAt, Asked } from "./asked.tsx";
import { ExpansionBeside, type ShownFits } from "./expansion-beside.tsx";
import { OxideName } from "./oxide.tsx";
import { plainNumber, Quantity } from "./quantity.tsx";
import { Wide } from "./wide.tsx";

type ExpansionTableProps = {
  expansion: readonly Expansion[];
  of?: string | undefined;
  ask?: AskAt | undefined;
  /** What is recorded of fit, for a glaze of the library. */
  fit?: ShownFits | undefined;
};

/** What published models make of the glaze's expansion, with what they leave out and how far they lie apart. */
export const ExpansionTable = ({ expansion, of, ask, fit }: ExpansionTableProps) => {
  const spread = expansionSpread(expansion);
  const caption = of ? `Expansion of ${of}, linear, 10⁻⁶/K` : "Expansion, linear, 10⁻⁶/K";
  return (
    <section class="expansion">
      <h3>Expansion</h3>
      <Wide label={caption}>
        <table class="figures">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Model</th>
              <th scope="col">Expansion</th>
              <th scope="col">From</th>
              <th scope="col">Without</th>
            </tr>
          </thead>
          <tbody>
            {expansion.map((model) => (
              <Row model={model} ask={ask} />
            ))}
          </tbody>
        </table>
      </Wide>
      {spread ? (
        <p>
          {spread.of} models answer, from {plainNumber(spread.least, 2)} to{" "}
          {plainNumber(spread.most, 2)}: the models' own error is never less than that, whatever the
          ±. The ± is that of the analyses.
        </p>
      ) : null}
      {fit && fit.fits.length > 0 ? (
        <ExpansionBeside expansion={expansion} {...fit} />
      ) : (
        <p>
          No reference on this body yet: a number like this says nothing of fit by itself. Only
          tiles on the body, and a thermal-shock test of them, tell whether it crazes or shivers.
        </p>
      )}
      <details>
        <summary>Where the models come from</summary>
        <ul>
          {expansion.map(({ model, name, source, howSure }) => (
            <li>
              {name ?? model}: {source}
              {howSure ? ` (${howSure})` : ""}
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
};

const Row = ({ model, ask }: { model: Expansion; ask: AskAt | undefined }) => (
  <tr>
    <th scope="row">{model.name ?? model.model}</th>
    <td>
      <Asked at={model.value === null ? undefined : ask} name={`expansion.${model.model}`}>
        <Quantity
          value={model.value}
          plusMinus={model.plusMinus ?? 0}
          digits={2}
          reason="more than 2 % of the glass has no factor"
        />
      </Asked>
    </td>
    <td>{basisWords(model)}</td>
    <td>
      {model.outside.length === 0
        ? "nothing"
        : model.outside.map((oxide, place) => (
            <>
              {place > 0 ? ", " : ""}
              <OxideName oxide={oxide} />
            </>
          ))}
    </td>
  </tr>
);

const basisWords = ({ basis, kind, celsius }: Expansion): string =>
  [
    basis === "mole" ? "mole percent" : "weight percent",
    kind ?? "",
    celsius ? `${celsius.from} to ${celsius.to} °C` : "",
  ]
    .filter(Boolean)
    .join(", ");
