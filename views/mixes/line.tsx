import { type Fault, faultAt, idOfField } from "../parts/field.tsx";
import { hazardName, hazards as knownHazards } from "../parts/hazard-words.ts";
import { PowderName } from "../parts/powder-name.tsx";
import { besideGrams, poundsOf } from "../parts/weights.ts";
import { DayOf } from "../tiles/day.tsx";
import { TickForm } from "./tick-form.tsx";
import type { ShownMixLine, ShownTick } from "./types.ts";
import { clockWords, lotWords, notDeducted, offWords } from "./words.ts";

export type MixLineProps = {
  mixId: string;
  line: ShownMixLine;
  open: boolean;
  /** Whether what went in can still be taken back. */
  undoable: boolean;
  faults: readonly Fault[];
  typed: { grams: string; lot: string } | undefined;
};

/** One line to weigh: how much of what, what is in of it, and the form that says so. */
export const MixLineItem = (props: MixLineProps) => {
  const { line, open, typed } = props;
  const { n, material, grams, runningGrams, part, put } = line;
  return (
    <li class={put === null ? "mix-line" : "mix-line mix-line-in"} id={`line-${n}`}>
      <h3 class="mix-what">
        <span class="mix-grams">{grams.toFixed()} g</span>{" "}
        {besideGrams() ? `(${poundsOf(grams)}) ` : null}
        <PowderName name={material.name} />
      </h3>
      <p class="mix-about">
        {part === "addition" ? "An addition. " : null}With this the bucket holds{" "}
        {runningGrams.toFixed()} g of powders.
        <Hazards hazards={material.hazards} />
      </p>
      {line.coarse ? (
        <p class="coarse">
          This scale is too coarse for so small a batch: the weight is{" "}
          {line.coarse.percent.toDecimalPlaces(1).toFixed()} % off. From{" "}
          {line.coarse.smallestGrams.toFixed()} g of base it is within 2 %.
        </p>
      ) : null}
      <WhatIsIn {...props} />
      {open ? <HowToTick {...props} again={put !== null && typed !== undefined} /> : null}
    </li>
  );
};

const Hazards = ({ hazards }: { hazards: readonly string[] }) => {
  const named = knownHazards.filter((hazard) => hazard !== "dust" && hazards.includes(hazard));
  return named.length === 0 ? null : (
    <strong> Careful: {named.map((hazard) => hazardName[hazard]).join(", ")}, see above.</strong>
  );
};

const WhatIsIn = ({ mixId, line, undoable }: MixLineProps) => {
  const { n, put, off, ticks } = line;
  return (
    <div id={`in-${n}`} class="mix-in" data-live={stateOf(ticks)}>
      {put === null ? null : (
        <p class="mix-put">
          <strong>In: {put.toFixed()} g.</strong>
          {off ? ` ${offWords(off)}: see below how to put it right.` : null}
        </p>
      )}
      {ticks.length === 0 ? null : (
        <ul class="mix-ticks">
          {ticks.map((tick) => (
            <Tick tick={tick} action={`/mixes/${mixId}/lines/${n}/undo`} undoable={undoable} />
          ))}
        </ul>
      )}
    </div>
  );
};

/** What tells one state of a line from another. */
const stateOf = (ticks: readonly ShownTick[]): string =>
  ticks.map(({ id, undone }) => (undone ? `${id}-` : id)).join(" ");

type TickProps = { tick: ShownTick; action: string; undoable: boolean };

const Tick = ({ tick, action, undoable }: TickProps) => {
  const { key, grams, lot, by, at, undone } = tick;
  const said = (
    <>
      {grams.toFixed()} g by {by.name}, <DayOf at={at} /> {clockWords(at)},{" "}
      {lot ? `out of ${lotWords(lot)}` : notDeducted}
    </>
  );
  if (undone)
    return (
      <li>
        <del>{said}</del>. Taken back by {undone.by}, {clockWords(undone.at)}.
      </li>
    );
  return (
    <li>
      <span>{said}.</span>
      {undoable ? (
        <form method="post" action={action} data-grams={grams.toFixed()}>
          <input type="hidden" name="key" value={key} />
          <button type="submit" class="quiet">
            Undo<span class="hidden-words"> {grams.toFixed()} g</span>
          </button>
        </form>
      ) : null}
    </li>
  );
};

/** The form is there at once while nothing is in; afterwards it stands folded, for a second bag. */
const HowToTick = ({ again, ...props }: MixLineProps & { again: boolean }) => {
  const { mixId, line, faults, typed } = props;
  const { n, put } = line;
  const form = (
    <TickForm
      action={`/mixes/${mixId}/lines/${n}`}
      line={line}
      adds={put !== null}
      typed={typed}
      faultOf={(name) => faultAt(faults, `lines.${n}.${name}`)}
      idOf={(name) => idOfField(`lines.${n}.${name}`)}
    />
  );
  return (
    <div id={`tick-${n}`} class="mix-tick" data-live={put === null ? "first" : "more"}>
      {put === null ? (
        form
      ) : (
        <details open={again}>
          <summary>Put more of it in</summary>
          {form}
        </details>
      )}
    </div>
  );
};
