import { signalWords } from "../materials/data-sheet.tsx";
import { hazardName } from "../parts/hazard-words.ts";
import { capital } from "../tiles/cone-words.ts";
import { Code } from "./code.tsx";
import { Mark, markMeans, markMeansInShort } from "./mark.tsx";
import { type LabelSize, type Leavable, leftOut } from "./sizes.ts";
import type { ShownCode, ShownLabel } from "./types.ts";
import { claimInShort, fitting } from "./words.ts";

type LabelProps = { label: ShownLabel; size: LabelSize; code: ShownCode; address: string };

/** One label, to be read from a metre: what it is, whether to use it, and how hot it is fired. */
export const Label = ({ label, size, code, address }: LabelProps) => {
  const left: readonly Leavable[] = leftOut(size);
  const means = left.includes("all of what the mark rules out") ? markMeansInShort : markMeans;
  return (
    <div class={`label label-${lengthOf(label.bucket.name)}`}>
      <Code code={code} means={`Opens ${address}`} />
      <p class="label-name">{label.bucket.name}</p>
      <p class="label-mark">
        <Mark mark={label.mark} /> <span>{means[label.mark]}</span>
      </p>
      <p class="label-cone">
        {capital(claimInShort(label.cones))}, {label.atmosphere}
      </p>
      <p>
        <Mixed {...label} />
      </p>
      <p class="label-recipe">
        Revision {label.number}, {label.digest.slice(0, 8)}, of {label.recipe.name}
      </p>
      <p>
        <Signal label={label} room={size.room} left={left} />
      </p>
      {label.dissolves ? (
        <p>
          <strong>Part of it dissolves:</strong> gloves, and never pour water off.
        </p>
      ) : null}
      {left.includes("whom to ask") ? null : <p>Ask: {label.ask || "a manager"}.</p>}
      {left.includes("safety data sheets") ? null : (
        <p>Safety data sheets: in the glaze room, and before this label.</p>
      )}
      {left.includes("hazard names") || label.hazards.length === 0 ? null : (
        <p>
          Look out for: {label.hazards.map((hazard) => hazardName[hazard].toLowerCase()).join(", ")}
          .
        </p>
      )}
    </div>
  );
};

/** A long name is set smaller, so that all of it is there. */
const lengthOf = ({ length }: string): string =>
  lengths.find(({ most }) => length <= most)?.is ?? "longest";

const lengths = [
  { most: 16, is: "short" },
  { most: 24, is: "middling" },
  { most: 40, is: "long" },
];

const Mixed = ({ mixedAt, keepsUntil }: Pick<ShownLabel, "mixedAt" | "keepsUntil">) =>
  mixedAt ? (
    <>
      Mixed {shortDay(mixedAt)}
      {keepsUntil ? <>, use by {shortDay(keepsUntil)}</> : null}
    </>
  ) : (
    <>Mixed on: ____________</>
  );

const shortDay = (at: Date): string => short.format(at);
const short = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeZone: "UTC" });

type SignalProps = { label: ShownLabel; room: number; left: readonly Leavable[] };

/** The signal word always; of statements what there is room for, and how many are left to the code. */
const Signal = ({ label: { signal, statements }, room, left }: SignalProps) => {
  const said = left.includes("hazard statements") ? [] : fitting(statements, room);
  const more = statements.length - said.length;
  return (
    <>
      <strong class="label-signal">
        {signal ? `${signalWords[signal]}.` : "Signal word not on record."}
      </strong>{" "}
      {said.join(" ")}
      {more > 0 ? ` ${more} ${said.length > 0 ? "more" : "statements"} by the code.` : null}
    </>
  );
};
