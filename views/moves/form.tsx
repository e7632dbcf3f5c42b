import { Decimal } from "decimal.js";
import type { Oxide } from "../../src/chem/oxides.ts";
import { FaultSummary, Field, faultAt, idOfField } from "../parts/field.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import type { MovesPageProps, ShownRow } from "./types.ts";

/**
 * The formula as a table of presses, boxes and ticks. It is one form that is sent by GET, with the
 * moves so far in it: a press adds one more.
 */
export const MovesForm = (props: MovesPageProps) => {
  const { recipe, state, rows, others, typed, faults, undo } = props;
  return (
    <form
      id="moves"
      class="sheet screen-only"
      method="get"
      action={`/recipes/${recipe.slug}/moves`}
    >
      <h2>The formula, and where you want it</h2>
      <FaultSummary faults={faults} />
      {state.revision === undefined ? null : (
        <input type="hidden" name="revision" value={String(state.revision)} />
      )}
      {state.moves.map(({ oxide, to }) => (
        <input type="hidden" name="set" value={`${oxide}:${to}`} />
      ))}
      <ul>
        <li>
          Press − or + for a step, or type a value. The fluxes add up to 1: where you move one of
          them, the others that are not held are scaled to make room, those that you moved before
          among them.
        </li>
        <li>
          What you hold stays at the value that is wanted, to 1 % of it or 0.005, whichever is more,
          or you are told why it cannot. What you moved comes next, as near as it can be. All that
          is neither held nor moved then stays as near to what it was as the powders let it.
        </li>
        <li>The formula is that of the base. Additions stay on top of it, in the same percent.</li>
      </ul>
      <div class="buttons">
        <button type="submit" class="main">
          Work it out
        </button>
        {undo ? (
          <a class="button quiet" href={undo}>
            Undo the last move
          </a>
        ) : null}
        {undo ? (
          <a class="button quiet" href={`/recipes/${recipe.slug}/moves${ofRevision(state)}`}>
            Start over
          </a>
        ) : null}
      </div>
      <Wide label="The unity formula of the base">
        <table class="figures moves-formula">
          <caption>Unity formula of the base, moles for one of flux</caption>
          <thead>
            <tr>
              <th scope="col">Oxide</th>
              <th scope="col">Now</th>
              <th scope="col">Wanted</th>
              <th scope="col">A step</th>
              <th scope="col">Or to</th>
              <th scope="col">Hold</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Row
                row={row}
                typed={typed[row.oxide] ?? ""}
                fault={faultAt(faults, `to.${row.oxide}`)}
              />
            ))}
          </tbody>
        </table>
      </Wide>
      <Others others={others} typed={typed} faults={faults} />
      <ShelfChoice {...props} />
      <div class="buttons">
        <button type="submit">Work it out</button>
      </div>
    </form>
  );
};

const ofRevision = ({ revision }: MovesPageProps["state"]): string =>
  revision === undefined ? "" : `?revision=${revision}`;

const Row = ({
  row: { oxide, now, wanted, moved, held, within, step },
  typed,
  fault,
}: {
  row: ShownRow;
  typed: string;
  fault: string | undefined;
}) => (
  <tr class={moved ? "compare-changed" : undefined}>
    <th scope="row">
      <OxideName oxide={oxide} />
    </th>
    <td>
      <span class="moves-word">now </span>
      <Quantity {...now} digits={3} />
    </td>
    <td>
      <span class="moves-word">wanted </span>
      {plainNumber(wanted, 3)}
      {held ? <span class="quantity-doubt"> held to {plainNumber(within, 3)}</span> : null}
    </td>
    <td class="moves-steps">
      <Press oxide={oxide} by={-step} from={wanted} />
      <Press oxide={oxide} by={step} from={wanted} />
    </td>
    <td>
      <input
        id={idOfField(`to.${oxide}`)}
        name={`to.${oxide}`}
        value={typed}
        inputmode="decimal"
        size={6}
        autocomplete="off"
        aria-label={`${oxide}, moved to`}
        aria-invalid={fault ? "true" : undefined}
      />
    </td>
    <td>
      <label>
        <input type="checkbox" name="hold" value={oxide} checked={held} />
        <span class="moves-word" aria-hidden="true">
          hold
        </span>
        <span class="hidden-words">hold {oxide}</span>
      </label>
    </td>
  </tr>
);

/** One press of a step, from where the oxide is wanted now; never below nothing. */
const Press = ({ oxide, by, from }: { oxide: Oxide; by: number; from: number }) => {
  const to = Decimal.max(0, new Decimal(from).plus(by).toDecimalPlaces(3));
  const sign = by < 0 ? "−" : "+";
  return (
    <button
      type="submit"
      class="quiet"
      name="set"
      value={`${oxide}:${to.toFixed()}`}
      disabled={by < 0 && from <= 0}
    >
      {sign}
      <span class="moves-step">{Math.abs(by)}</span>
      <span class="hidden-words"> {oxide}</span>
    </button>
  );
};

type OthersProps = Pick<MovesPageProps, "others" | "typed" | "faults">;

const Others = ({ others, typed, faults }: OthersProps) =>
  others.length === 0 ? null : (
    <details open={others.some((oxide) => typed[oxide] !== undefined)}>
      <summary>Bring in another oxide</summary>
      <p>It has none of these, and your shelf could bring them.</p>
      <div class="unity-boxes">
        {others.map((oxide) => (
          <Field
            label={oxide}
            name={`to.${oxide}`}
            value={typed[oxide] ?? ""}
            fault={faultAt(faults, `to.${oxide}`)}
            inputmode="decimal"
            autocomplete="off"
          />
        ))}
      </div>
    </details>
  );

const ShelfChoice = ({ materials, state }: MovesPageProps) => (
  <details open={state.allSold}>
    <summary>
      From {state.allSold ? "all that are still sold, and " : ""}
      {materials.filter(({ ticked }) => ticked).length} ticked powders
    </summary>
    <fieldset>
      <legend>From these powders</legend>
      <p>Its own powders are ticked to begin with, and are what is used where you tick none.</p>
      <p>
        <label>
          <input type="checkbox" name="allSold" checked={state.allSold} /> and all of the shelf that
          are still sold
        </label>
      </p>
      <ul class="plan-boxes">
        {materials.map(({ slug, name, stillSold, ticked }) => (
          <li>
            <label>
              <input type="checkbox" name="shelf" value={slug} checked={ticked} />
              {name}
              {stillSold ? null : " (no longer sold)"}
            </label>
          </li>
        ))}
      </ul>
    </fieldset>
  </details>
);
