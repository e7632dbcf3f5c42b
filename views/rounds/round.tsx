import { When } from "../people/when.tsx";
import { RoundSheet } from "./sheet.tsx";
import { TickForm } from "./tick-form.tsx";
import type { RoundProps, ShownStop } from "./types.ts";
import { measureWords, proofWords, stirredWords } from "./words.ts";

/** The way round the glaze room: each bucket, what is wrong with it, and a tick for having looked. */
export const RoundPage = (props: RoundProps) => {
  const { stops, day, done, of, typed, faults } = props;
  const lost = faults.length > 0 && !stops.some(({ id }) => id === typed("bucket"));
  return (
    <article class="round">
      <h1>The round</h1>
      {of === 0 ? (
        <p>
          No bucket has anything in it. <a href="/buckets">Look at the buckets</a>.
        </p>
      ) : (
        <p>
          {done} of {of} done today, <time datetime={day}>{day}</time> (UTC).
          <span class="screen-only">
            {" "}
            Printed, this page is one sheet to fill in by hand as you walk.
          </span>
        </p>
      )}
      {lost ? (
        <div class="faults" role="alert">
          {faults.map(({ says }) => (
            <p>{says}</p>
          ))}
        </div>
      ) : null}
      <ol class="round-stops screen-only">
        {stops.map((stop) => (
          <Stop stop={stop} {...props} />
        ))}
      </ol>
      {of === 0 ? null : <RoundSheet stops={stops} />}
    </article>
  );
};

const Stop = ({ stop, typed, faults, newKey }: { stop: ShownStop } & RoundProps) => {
  const isFaulty = faults.length > 0 && typed("bucket") === stop.id;
  return (
    <li id={`stop-${stop.id}`} class={stop.tick ? "round-done" : undefined}>
      <h2>
        <a href={`/buckets/${stop.id}`}>{stop.name}</a>
      </h2>
      {stop.flags.map((flag) => (
        <p>
          <strong>{flag}</strong>
        </p>
      ))}
      <p>
        {stop.recipe.name}, revision {stop.revision}; {stop.litres.toFixed()} l;{" "}
        {stirredWords(stop)}.
      </p>
      <p>
        Gravity: {measureWords(stop.gravity)}. Flow, s: {measureWords(stop.flow)}. Proof tile:{" "}
        {proofWords(stop)}.
      </p>
      {stop.tick ? (
        <p class="round-tick">
          ✓ {stop.tick.stirred ? "Stirred" : "Looked at"} by {stop.tick.by},{" "}
          <When at={stop.tick.at} clock />
          {stop.tick.note === "" ? "" : `: ${stop.tick.note}`}
        </p>
      ) : null}
      <TickForm
        id={stop.id}
        typed={isFaulty ? typed : () => ""}
        faults={isFaulty ? faults : []}
        idempotencyKey={newKey()}
      />
    </li>
  );
};
