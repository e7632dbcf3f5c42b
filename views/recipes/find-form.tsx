import { meltOxides } from "../../src/chem/restating.ts";
import { Choice, type Fault, Field, faultAt } from "../parts/field.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { Colours } from "../tiles/wall-form.tsx";
import { OxideRanges } from "./oxide-ranges.tsx";

/** What the address says, as it was typed. */
export type AskedOf = Readonly<Record<string, readonly string[]>>;

type Count = number | "1000+";

/** How many recipes fit the search, and how many would with another answer in one place. */
export type Counts = {
  all: Count;
  cone: Partial<Record<string, Count>>;
  use: Readonly<Record<string, Count>>;
  atmosphere: Readonly<Record<string, Count>>;
  standing: Readonly<Record<string, Count>>;
};

type FindFormProps = {
  asked: AskedOf;
  counts: Counts | undefined;
  faults: readonly Fault[];
  mayAdd: boolean;
};

/** What narrows the library; it all goes into the address. */
export const FindForm = ({ asked, counts, faults, mayAdd }: FindFormProps) => {
  const of = (name: string) => ({
    name,
    value: asked[name]?.[0],
    fault: faultAt(faults, name),
  });
  return (
    <search>
      <form class="find" method="get" action="/recipes">
        <div class="find-words">
          <Field
            label="Name, maker, material or any word"
            type="search"
            maxlength={100}
            {...of("q")}
          />
          <button type="submit">Find</button>
        </div>
        <details class="find-narrowing" open={faults.some(({ path }) => path !== "q")}>
          <summary>Narrow by cone, use, standing, colour, powders, chemistry</summary>
          <div class="find-fields">
            <Choice label="Cone" options={counted(coneChoices(), counts?.cone)} {...of("cone")} />
            <Choice label="Use" options={counted(uses, counts?.use)} {...of("use")} />
            <Choice
              label="Standing"
              options={counted(asOptions(standings), counts?.standing)}
              {...of("standing")}
            />
            <Choice
              label="Atmosphere"
              options={counted(asOptions(atmospheres), counts?.atmosphere)}
              {...of("atmosphere")}
            />
            <Field label="Surface" maxlength={60} {...of("surface")} />
            <Field label="Maker" maxlength={80} hint="By name." {...of("maker")} />
            <Without asked={asked} fault={faultAt(faults, "without")} />
            {mayAdd ? (
              <label class="tick">
                <input
                  type="checkbox"
                  name="stocked"
                  value="1"
                  checked={asked.stocked?.[0] === "1"}
                />
                In a bucket that may be used now
              </label>
            ) : null}
          </div>
          <Colours
            chosen={asked.colour?.join(" ")}
            fault={faultAt(faults, "colour")}
            legend="Nearest to a colour, as a tile came out"
          />
          <OxideRanges oxides={meltOxides} asked={asked} faults={faults} />
          <p class="actions">
            <button type="submit">Show these</button>
          </p>
        </details>
      </form>
    </search>
  );
};

/** Each powder that is in force keeps a field of its own; emptied, it is taken off. */
const Without = ({ asked, fault }: { asked: AskedOf; fault: string | undefined }) => (
  <>
    <Field
      label="Without the powder"
      name="without"
      value={asked.without?.[0]}
      maxlength={80}
      hint="By any of its names."
      fault={fault}
    />
    {(asked.without ?? []).map((_, place, all) => (
      <p class="field">
        <label for={`field-without-${place + 1}`}>And without</label>
        <input
          id={`field-without-${place + 1}`}
          name="without"
          value={all[place + 1]}
          maxlength={80}
        />
      </p>
    ))}
  </>
);

const any = { value: "", label: "any" };

type Option = { value: string; label: string };

/** Says beside each answer how many there are; what nothing would fit says so too. */
const counted = (
  options: readonly Option[],
  counts: Readonly<Partial<Record<string, Count>>> | undefined,
): Option[] => [
  any,
  ...options.map(({ value, label }) => ({
    value,
    label: counts ? `${label}: ${counts[value] ?? "none"}` : label,
  })),
];

const asOptions = (words: readonly string[]): Option[] =>
  words.map((word) => ({ value: word, label: word }));

const uses = [
  { value: "functional", label: "meant for functional ware" },
  { value: "decorative", label: "decorative only" },
];

const standings = ["draft", "in review", "approved", "needs another look", "withdrawn"];

const atmospheres = ["oxidation", "neutral", "reduction", "salt", "soda", "wood", "raku"];
