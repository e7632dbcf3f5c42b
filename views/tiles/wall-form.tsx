import { type PlainColour, plainColours } from "../../src/chem/plain-colours.ts";
import { Choice, type Fault, Field, faultAt } from "../parts/field.tsx";
import { coneChoices } from "./cone-words.ts";
import { defects } from "./defect-words.ts";
import type { AskedWall } from "./wall-words.ts";

type WallFormProps = {
  asked: AskedWall;
  bodies: readonly { slug: string; name: string }[];
  atmospheres: readonly string[];
  faults: readonly Fault[];
};

const any = { value: "", label: "any" };
const asOptions = (words: readonly string[]) => words.map((word) => ({ value: word, label: word }));

/** What narrows the wall; it all goes into the address. */
export const WallForm = ({ asked, bodies, atmospheres, faults }: WallFormProps) => (
  <search>
    <form class="wall-form" method="get" action="/tiles">
      <div class="wall-fields">
        <Choice
          label="Cone"
          name="cone"
          value={asked.cone}
          options={[any, ...coneChoices()]}
          fault={faultAt(faults, "cone")}
        />
        <Choice
          label="Body"
          name="body"
          value={asked.body}
          options={[any, ...bodies.map(({ slug, name }) => ({ value: slug, label: name }))]}
          fault={faultAt(faults, "body")}
        />
        <Choice
          label="Atmosphere"
          name="atmosphere"
          value={asked.atmosphere}
          options={[any, ...asOptions(atmospheres)]}
          fault={faultAt(faults, "atmosphere")}
        />
        <Choice
          label="Defect"
          name="defect"
          value={asked.defect}
          options={[any, { value: "none", label: "none" }, ...asOptions(defects)]}
          fault={faultAt(faults, "defect")}
        />
        <Field
          label="Surface"
          name="surface"
          value={asked.surface}
          maxlength={60}
          hint="As it came out; where nobody said, as the recipe says."
          fault={faultAt(faults, "surface")}
        />
      </div>
      <Colours chosen={asked.colour} fault={faultAt(faults, "colour")} />
      <p class="actions">
        <button type="submit">Show these</button>
      </p>
    </form>
  </search>
);

const words = Object.keys(plainColours) as PlainColour[];

type ColoursProps = {
  chosen: string | undefined;
  fault?: string | undefined;
  legend?: string | undefined;
};

/** A plain colour to choose by its word, or figures to type. */
export const Colours = ({ chosen = "", fault, legend = "Nearest to a colour" }: ColoursProps) => {
  const word = chosen.trim().toLowerCase();
  const isWord = words.some((each) => each === word);
  return (
    <fieldset class="wall-colours">
      <legend>{legend}</legend>
      <div class="wall-swatches">
        <label>
          <input type="radio" name="colour" value="" checked={!isWord} /> any
        </label>
        {words.map((each) => (
          <label>
            <input type="radio" name="colour" value={each} checked={each === word} />
            <Swatch colour={each} />
            {each}
          </label>
        ))}
      </div>
      <Field
        label="Or its figures"
        name="colour"
        value={isWord ? "" : chosen}
        maxlength={40}
        hint="L*, a* and b* under D50, with commas, such as 52,-10,20. Choose “any” above."
        fault={fault}
      />
    </fieldset>
  );
};

/** What a word means here, for the eye; the word beside it is what is chosen by. */
const Swatch = ({ colour }: { colour: PlainColour }) => {
  const [lightness, a, b] = plainColours[colour];
  return (
    <svg class="wall-swatch" width="24" height="24" fill="none" aria-hidden="true">
      <rect width="24" height="24" fill={`lab(${lightness} ${a} ${b})`} />
    </svg>
  );
};
