import type { ShownLot, ShownMixLine } from "./types.ts";
import { lotWords, notDeducted } from "./words.ts";

type TickFormProps = {
  action: string;
  line: ShownMixLine;
  /** Whether it comes on top of what is in. */
  adds: boolean;
  typed: { grams: string; lot: string } | undefined;
  faultOf: (name: "grams" | "lot" | "key") => string | undefined;
  idOf: (name: "grams" | "lot" | "key") => string;
};

/** Says what went in of a line and out of which bag. */
export const TickForm = ({ action, line, adds, typed, faultOf, idOf }: TickFormProps) => {
  const { material, grams, lots, key } = line;
  const usable = lots.filter(({ recalled }) => recalled === null);
  const planned = adds || grams.isZero() ? "" : grams.toFixed();
  return (
    <form method="post" action={action} class="mix-form">
      <input type="hidden" name="key" value={key} />
      {adds ? <input type="hidden" name="adds" value="on" /> : null}
      <div class={faultOf("grams") ? "field field-faulty" : "field"}>
        <label for={idOf("grams")}>
          Weighed<span class="hidden-words"> of {material.name}</span>
        </label>
        <FaultOf id={idOf("grams")} says={faultOf("grams") ?? faultOf("key")} />
        <span class="field-control">
          <input
            id={idOf("grams")}
            name="grams"
            type="text"
            inputmode="decimal"
            autocomplete="off"
            required
            value={typed?.grams ?? planned}
            aria-describedby={faultOf("grams") ? `${idOf("grams")}-fault` : undefined}
            aria-invalid={faultOf("grams") ? "true" : undefined}
          />
          <span class="field-unit">g</span>
        </span>
      </div>
      <div class={faultOf("lot") ? "field field-faulty" : "field"}>
        <label for={idOf("lot")}>
          Out of<span class="hidden-words"> which bag of {material.name}</span>
        </label>
        <FaultOf id={idOf("lot")} says={faultOf("lot")} />
        <select
          id={idOf("lot")}
          name="lot"
          required
          aria-describedby={faultOf("lot") ? `${idOf("lot")}-fault` : undefined}
          aria-invalid={faultOf("lot") ? "true" : undefined}
        >
          {usable.length > 1 ? <option value="">Which bag?</option> : null}
          {lots.map((lot) => (
            <option
              value={lot.id}
              disabled={lot.recalled !== null}
              selected={lot.id === typed?.lot}
              data-called={`out of ${lotWords(lot)}`}
            >
              {optionWords(lot)}
            </option>
          ))}
          <option value="none" selected={typed?.lot === "none"} data-called={notDeducted}>
            {lots.length === 0
              ? "No bag of it is on record: not deducted"
              : "I cannot tell which bag: not deducted"}
          </option>
        </select>
      </div>
      <button type="submit">
        {adds ? "This too is in" : "It is in"}
        <span class="hidden-words">: {material.name}</span>
      </button>
    </form>
  );
};

const FaultOf = ({ id, says }: { id: string; says: string | undefined }) =>
  says ? (
    <span class="field-fault" id={`${id}-fault`}>
      <span class="hidden-words">To put right: </span>
      {says}
    </span>
  ) : null;

function optionWords(lot: ShownLot): string {
  const day = `bought ${lot.boughtAt.toISOString().slice(0, 10)}`;
  const called = `${lotWords(lot)}, ${day}`;
  if (lot.recalled !== null) return `${called}: recalled, do not use`;
  const left = `${lot.leftGrams.toFixed()} g left`;
  return lot.expired ? `${called}, ${left}, past its day` : `${called}, ${left}`;
}
