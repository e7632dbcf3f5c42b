import { Choice, type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { CoatFields } from "./coat-fields.tsx";
import { type Claim, claimWords } from "./cone-words.ts";
import {
  type ChosenFiring,
  ClayFields,
  coneOptions,
  FiringFields,
  OutcomeFields,
  UnrecordedFields,
} from "./form-fields.tsx";

type TileFormProps = {
  recipe: { slug: string; name: string; head: number };
  /** What the revision asked for claims, where it is known. */
  claimed: (Claim & { number: number }) | undefined;
  atmospheres: readonly string[];
  bodies: readonly { slug: string; name: string }[];
  /** The buckets that hold the melt of the revision. */
  buckets: readonly { id: string; name: string }[];
  /** Glaze firings, newest first. */
  firings: readonly ChosenFiring[];
  /** What was typed in a field, by its path. */
  typed: (path: string) => string;
  ticked: (defect: string) => boolean;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** The form that puts a fired tile on record. Its pictures are sent from the tile's own page. */
export const TileForm = (props: TileFormProps) => {
  const { recipe, claimed, typed, faults } = props;
  const faultOf = (path: string) => faults.find((fault) => fault.path === path)?.says;
  const told = (name: string) => ({ name, value: typed(name), fault: faultOf(name) });
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
          {...told("revision")}
          label="Revision that was fired"
          inputmode="numeric"
          required
          hint={`The head is revision ${recipe.head}.`}
        />
        <Choice
          {...told("cone")}
          label="Cone"
          required
          options={coneOptions("choose the cone")}
          hint={
            claimed
              ? `Revision ${claimed.number} claims ${claimWords(claimed)}. 04 is not 4.`
              : "04 is not 4."
          }
        />
        <FiringFields told={told} firings={props.firings} />
        <ClayFields told={told} bodies={props.bodies} />
        <UnrecordedFields told={told} atmospheres={props.atmospheres} />
        <CoatFields told={told} buckets={props.buckets} />
        <OutcomeFields told={told} ticked={props.ticked} fault={faultOf("defects")} />
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
