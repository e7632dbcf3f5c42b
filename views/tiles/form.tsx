import { type Cone, cones } from "../../src/chem/cones.ts";
import { Choice, type Fault, FaultSummary, Field, TextArea } from "../parts/field.tsx";
import { type Claim, claimWords, coneInShort } from "./cone-words.ts";

export type TypedTile = {
  revision: string;
  cone: string;
  atmosphere: string;
  clay: string;
  firedOn: string;
  remark: string;
};

type TileFormProps = {
  recipe: { slug: string; name: string; head: number };
  /** What the revision asked for claims, where it is known. */
  claimed: (Claim & { number: number }) | undefined;
  atmospheres: readonly string[];
  typed: TypedTile;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The form that puts a fired tile on record. Its pictures are sent from the tile's own page. */
export const TileForm = (props: TileFormProps) => {
  const { recipe, claimed, typed, faults } = props;
  const faultOf = (path: string) => faults.find((fault) => fault.path === path)?.says;
  return (
    <article>
      <h1>Add a tile of {recipe.name}</h1>
      <p>
        What came out of the kiln counts, good or bad. Read the cone off the witness cone that stood
        beside the tile, not off the programme.
      </p>
      <FaultSummary faults={faults} />
      <form method="post" action={`/recipes/${recipe.slug}/tiles`}>
        <input type="hidden" name="idempotencyKey" value={props.idempotencyKey} />
        <Field
          label="Revision that was fired"
          name="revision"
          inputmode="numeric"
          required
          value={typed.revision}
          hint={`The head is revision ${recipe.head}.`}
          fault={faultOf("revision")}
        />
        <Choice
          label="Cone"
          name="cone"
          required
          value={typed.cone}
          options={coneOptions}
          hint={
            claimed
              ? `Revision ${claimed.number} claims ${claimWords(claimed)}. 04 is not 4.`
              : "04 is not 4."
          }
          fault={faultOf("cone")}
        />
        <Choice
          label="Atmosphere"
          name="atmosphere"
          value={typed.atmosphere}
          options={[
            { value: "", label: "as the revision says" },
            ...props.atmospheres.map((value) => ({ value, label: value })),
          ]}
          fault={faultOf("atmosphere")}
        />
        <Field
          label="Clay body"
          name="clay"
          maxlength={80}
          value={typed.clay}
          hint="Such as: Loft stoneware. The same glaze differs from clay to clay."
          fault={faultOf("clay")}
        />
        <Field
          label="Fired on"
          name="firedOn"
          type="date"
          value={typed.firedOn}
          fault={faultOf("firedOn")}
        />
        <TextArea
          label="Remark"
          name="remark"
          maxlength={2000}
          value={typed.remark}
          hint="What is to be seen: surface, colour, runs, pinholes, crazing; how thick it was put on."
          fault={faultOf("remark")}
        />
        <p class="actions">
          <button type="submit">Put this tile on record</button>
          <a class="button quiet" href={`/recipes/${recipe.slug}`}>
            Back to {recipe.name}
          </a>
        </p>
        <p>You can add pictures on the next page.</p>
      </form>
    </article>
  );
};

const coneOptions = [
  { value: "", label: "choose the cone" },
  ...cones.map((cone: Cone) => ({ value: cone, label: coneInShort(cone) })),
];
