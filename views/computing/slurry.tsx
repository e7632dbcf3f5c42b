import type { Child } from "hono/jsx";
import type { Slurry } from "../../src/chem/slurry.ts";
import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";
import { Term } from "../parts/term.tsx";

export type TypedSlurry = {
  specificGravity: string;
  drySpecificGravity: string;
  litres: string;
  targetGravity: string;
  recipe: string;
};

type SlurryPageProps = {
  typed: TypedSlurry;
  faults: readonly Fault[];
  slurry: Slurry | undefined;
};

/** A gravity in, the powder and the water of a bucket out, for anybody; nothing is stored. */
export const SlurryPage = ({ typed, faults, slurry }: SlurryPageProps) => (
  <article>
    <h1>What is in the slurry?</h1>
    <p>
      Weigh a measured amount of stirred glaze, and read how much dry powder and water it holds, and
      how much water brings it to another{" "}
      <Term
        guide="bucket#gravity"
        means="How many times as heavy as water it is: the grams of a litre, over 1000. A glaze for dipping is often near 1.45."
      >
        specific gravity
      </Term>
      . No account is needed and nothing is stored.
    </p>
    <div class="sheet-columns">
      <form class="sheet" method="post" action="/slurry#slurry">
        <FaultSummary faults={faults} />
        {fields.map(({ name, inputmode = "decimal" as const, ...field }) => (
          <Field
            {...field}
            name={name}
            value={typed[name]}
            fault={faults.find(({ path }) => path === name)?.says}
            inputmode={inputmode}
            autocomplete="off"
          />
        ))}
        <div class="buttons">
          <button type="submit" class="main">
            Work it out
          </button>
        </div>
      </form>
      {slurry ? <Contents slurry={slurry} /> : null}
    </div>
    <p>
      Also here, for anybody: <a href="/cone-estimate">which cone a firing came to</a>, and{" "}
      <a href="/chemistry">the chemistry of a glaze</a>.
    </p>
  </article>
);

type NamedField = {
  name: keyof TypedSlurry;
  label: string;
  hint: string;
  unit?: string;
  required?: boolean;
  inputmode?: "text" | "decimal";
};

const fields: readonly NamedField[] = [
  {
    name: "specificGravity",
    label: "Specific gravity of the slurry",
    hint: "Kilograms of one litre, stirred and without froth, as in 1.45.",
    required: true,
  },
  {
    name: "drySpecificGravity",
    label: "Specific gravity of the dry powder",
    hint: "2.65 is common and is assumed where nothing better is known.",
  },
  {
    name: "recipe",
    label: "Recipe, as its address has it",
    hint: "Such as slack-water, or slack-water@2: the dry gravity then follows from its powders.",
    inputmode: "text",
  },
  { name: "litres", label: "Slurry in the bucket", hint: "As it is now.", unit: "litres" },
  {
    name: "targetGravity",
    label: "Specific gravity to bring it to",
    hint: "Leave empty where nothing is to change.",
  },
];

const Contents = ({ slurry }: { slurry: Slurry }) => {
  const { dryGrams, dryPlusMinus, drySharePercent, addWaterGrams } = slurry;
  const sharePlusMinus = (dryPlusMinus / dryGrams) * drySharePercent;
  return (
    <section id="slurry" class="preview" role="status">
      <h2>What it holds</h2>
      <p>{slurry.says}</p>
      {addWaterGrams === undefined ? null : <Water grams={addWaterGrams} />}
      <dl class="ratios">
        <Line name="Dry powder">
          <Quantity value={dryGrams} plusMinus={dryPlusMinus} unit="g" />
        </Line>
        <Line name="Dry powder, of the weight">
          <Quantity value={drySharePercent} plusMinus={sharePlusMinus} unit="%" />
        </Line>
        <Line name="Water">
          <Quantity value={slurry.waterGrams} plusMinus={dryPlusMinus} unit="g" />
        </Line>
        <Line name="All of it">
          <Quantity value={slurry.slurryGrams} digits={0} unit="g" />
        </Line>
        <Line name="Twaddell">{plainNumber(slurry.twaddell, 1)} °Tw</Line>
        <Line name="Baumé, modulus 145">{plainNumber(slurry.baume, 1)} °Bé</Line>
        <Line name="An imperial pint weighs">
          {plainNumber(slurry.ouncesPerImperialPint, 1)} oz
        </Line>
      </dl>
    </section>
  );
};

const Water = ({ grams }: { grams: number }) => (
  <p>
    {grams < 0 ? (
      <strong>
        Take off {plainNumber(-grams, 0)} g of water: let it settle, and draw clear water from the
        top.
      </strong>
    ) : (
      <strong>
        Add {plainNumber(grams, 0)} g of water, the last of it slowly, and weigh again.
      </strong>
    )}
  </p>
);

const Line = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
