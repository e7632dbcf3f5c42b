import { ConventionChoices } from "../parts/conventions.tsx";
import { Choice, type Fault, FaultSummary, faultAt } from "../parts/field.tsx";
import type { Reading } from "../parts/reading.ts";

type ReadingPageProps = {
  /** `own` is the region of the studio's own names. */
  chosen: Reading;
  regions: readonly string[];
  /** Where it is sent: the account's settings, or this browser's. */
  action: string;
  faults: readonly Fault[];
};

/** How to read this: units, names, how chemistry is counted, light or dark. */
export const ReadingPage = ({ chosen, regions, action, faults }: ReadingPageProps) => {
  const visiting = action === "/reading";
  const told = (name: keyof Reading) => ({
    ...{ name, value: chosen[name], fault: faultAt(faults, name) },
  });
  return (
    <section>
      <h1>{visiting ? "How this browser reads" : "How you read"}</h1>
      <p>
        {visiting
          ? "For this browser, as long as nobody is signed in with it: it is kept in a cookie for a year. Your account has settings of its own, which come first."
          : "For you, wherever you are signed in."}{" "}
        What is on record does not change by it, and neither does the JSON that programs ask for.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action={action}>
        <fieldset>
          <legend>Units and heat</legend>
          <Choice label="Weights" {...told("weight")} options={weights} hint={gramsCount} />
          <Choice label="Temperatures" {...told("temperature")} options={temperatures} />
          <Choice
            label="How hot: first comes"
            {...told("heat")}
            options={heats}
            hint="The cone is never left out, and a first mention of it has both."
          />
        </fieldset>
        <fieldset>
          <legend>Names of powders</legend>
          <Choice
            label="As they are called in"
            {...told("region")}
            options={[
              { value: "own", label: "this studio" },
              ...regions.map((region) => ({ value: region, label: region })),
            ]}
            hint="The studio's own name stands behind it in brackets, and is what forms take."
          />
        </fieldset>
        <fieldset>
          <legend>Chemistry, where an address asks for nothing else</legend>
          <ConventionChoices conventions={chosen} />
        </fieldset>
        <fieldset>
          <legend>Light or dark</legend>
          <Choice
            label="Pages are"
            {...told("theme")}
            options={themes}
            hint="Paper is always printed light."
          />
        </fieldset>
        <p class="actions">
          <button type="submit">Read it so</button>
        </p>
      </form>
      <p>
        {visiting ? (
          <a href="/recipes">To the library</a>
        ) : (
          <a href="/account">Back to your account</a>
        )}
      </p>
    </section>
  );
};

const gramsCount =
  "Scales here show grams, so grams stay beside pounds and ounces: weigh by those.";

const weights = [
  { value: "g", label: "grams" },
  { value: "lb", label: "pounds and ounces, with grams" },
];

const temperatures = [
  { value: "C", label: "°C" },
  { value: "F", label: "°F" },
];

const heats = [
  { value: "cone", label: "the cone: cone 6 (about 1222 °C)" },
  { value: "temperature", label: "the temperature: about 1222 °C: cone 6" },
];

const themes = [
  { value: "system", label: "as this device is set" },
  { value: "light", label: "light" },
  { value: "dark", label: "dark" },
];
